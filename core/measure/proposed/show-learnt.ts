import { sideOf } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { ProposedPoint, SeenPoint } from '../../model/proposed-points.ts';
import type { Handedness, View } from '../../model/words.ts';
import { ratioToTell } from './learn-errors.ts';
import type { LearntError } from './learn-errors.ts';

/** On what a point is seen: whose, and in how large a square. */
export interface SeenOn {
  readonly view: View;
  readonly handedness: Handedness;
  /** Side of the square in which the model saw the body, pixels. */
  readonly size: number;
  /** When: an instant of UTC. */
  readonly at: string;
}

/**
 * A point as it is shown to the coach: moved by the offset that is learnt, and told with the error that is learnt; where nothing
 * is, as the model saw it and with the assumed error.
 */
export function showLearnt(
  point: BodyPointId,
  seen: SeenPoint,
  { view, handedness, size, at }: SeenOn,
  errors: readonly LearntError[],
): ProposedPoint {
  const of = errors.find((each) => each.point === point && each.view === view);
  const kept = { model: { x: seen.x, y: seen.y }, assumed: seen.guess, size, at };
  if (of === undefined || of.learnt === null) return { ...seen, proposed: { x: seen.x, y: seen.y, ...kept } };
  const { offset } = of.learnt;
  const shown = {
    x: seen.x + (sideOf(handedness) * offset.x * size) / 1000,
    y: seen.y + (offset.y * size) / 1000,
  };
  const guess = seen.guess * ratioToTell(of.learnt);
  return { ...shown, guess, proposed: { ...shown, ...kept, learnt: of.corrections } };
}
