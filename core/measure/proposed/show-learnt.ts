import { sideOf } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { ProposedPoint, SeenPoint } from '../../model/proposed-points.ts';
import type { Checkpoint, Handedness, View } from '../../model/words.ts';
import { toldAt } from './learn-errors.ts';
import type { LearntError } from './learn-errors.ts';
import { swingPlaceOf } from './swing-places.ts';

/** On what a point is seen: whose, where in the swing, and in how large a square. */
export interface SeenOn {
  readonly view: View;
  readonly handedness: Handedness;
  /** The name of its frame, or the one it is proposed for. */
  readonly checkpoint: Checkpoint | null;
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
  { view, handedness, checkpoint, size, at }: SeenOn,
  errors: readonly LearntError[],
): ProposedPoint {
  const of = errors.find((each) => each.point === point && each.view === view);
  const learnt = of === undefined ? null : toldAt(of, swingPlaceOf(checkpoint));
  const kept = { model: { x: seen.x, y: seen.y }, assumed: seen.guess, size, at };
  if (learnt === null) return { ...seen, proposed: { x: seen.x, y: seen.y, ...kept } };
  const { offset, ratio, corrections } = learnt;
  const shown = {
    x: seen.x + (sideOf(handedness) * offset.x * size) / 1000,
    y: seen.y + (offset.y * size) / 1000,
  };
  return { ...shown, guess: seen.guess * ratio, proposed: { ...shown, ...kept, learnt: corrections } };
}
