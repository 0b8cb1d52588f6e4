import { fitSimilarity } from '../geometry/similarity.ts';
import type { PointPair, SimilarityFit } from '../geometry/similarity.ts';
import type { BodyPointId } from '../model/body-points.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';

/** What stands still on the ground at address: the ball and the feet. */
export const OVERLAY_POINTS: readonly BodyPointId[] = [
  'ball',
  'lead-heel',
  'lead-toe',
  'trail-heel',
  'trail-toe',
  'lead-ankle',
  'trail-ankle',
];

export interface Overlay extends SimilarityFit {
  /** The points that both swings have at address. */
  readonly points: readonly BodyPointId[];
}

/**
 * The move, turn and scale that lays the picture of now over that of then: now's picture pixels in, then's out. From
 * ball and feet at address, as far as both swings have them placed. null with fewer than two shared points apart from
 * one another; then the pictures cannot be laid over each other.
 */
export function overlayOf(then: MarkedClip, now: MarkedClip): Overlay | null {
  const before = marksAt(then, 'address')?.points ?? {};
  const after = marksAt(now, 'address')?.points ?? {};
  const points: BodyPointId[] = [];
  const pairs: PointPair[] = [];
  for (const point of OVERLAY_POINTS) {
    const from = after[point];
    const to = before[point];
    if (from === undefined || to === undefined) continue;
    points.push(point);
    pairs.push({ from, to });
  }
  const fit = fitSimilarity(pairs);
  return fit === null ? null : { ...fit, points };
}
