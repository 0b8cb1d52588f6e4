import { BODY_POINTS } from '../../model/body-points.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { RepeatFrame } from '../../model/repeat-check.ts';
import { ASSUMED_PLACING, PLACING_LINES } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { withinSubject } from './within-subject.ts';
import type { Spread } from './within-subject.ts';

/**
 * How far the placings of each body point scatter about the point's own mean place, x and y together: in px of a picture
 * 1080 lines high. n frames with k placings each have 2 n (k - 1) degrees of freedom. In the order of the body points;
 * a point placed once nowhere repeats and is left out.
 */
export function placingSpreads(frames: readonly RepeatFrame[]): readonly (Spread & { readonly point: BodyPointId })[] {
  return BODY_POINTS.flatMap((point) => {
    const spread = withinSubject(frames.flatMap((frame) => coordinates(frame, point)));
    return spread === null ? [] : [{ point, ...spread }];
  });
}

/** All body points together: one number for a hand, beside those of each point. null when nothing repeats. */
export function pooledPlacing(frames: readonly RepeatFrame[]): Spread | null {
  return withinSubject(frames.flatMap((frame) => BODY_POINTS.flatMap((point) => coordinates(frame, point))));
}

function coordinates({ placings, height }: RepeatFrame, point: BodyPointId): readonly (readonly number[])[] {
  const places = placings[point] ?? [];
  const lines = PLACING_LINES / height;
  return [places.map(({ x }) => x * lines), places.map(({ y }) => y * lines)];
}

/**
 * No hand is surer than this, in px per 1080 lines: places are set to whole pixels of the screen, whose rectangle of
 * 1 px has the standard deviation 1 / sqrt(12). Ours; it keeps a point clicked twice alike from being called exact.
 */
export const FINEST_PLACING = 1 / Math.sqrt(12);

/** What readings count with from then on. Points that were not repeated, and shapes, keep the assumed error. */
export function placingErrorsOf(frames: readonly RepeatFrame[]): PlacingErrors {
  const known: Partial<Record<BodyPointId, number>> = {};
  const freedom: Partial<Record<BodyPointId, number>> = {};
  for (const spread of placingSpreads(frames)) {
    known[spread.point] = Math.max(spread.sd, FINEST_PLACING);
    freedom[spread.point] = spread.freedom;
  }
  return { known, freedom, assumed: ASSUMED_PLACING.assumed };
}
