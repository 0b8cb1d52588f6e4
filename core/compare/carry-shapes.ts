import type { BodyPointId } from '../model/body-points.ts';
import { applySimilarity, fitSimilarity } from '../geometry/similarity.ts';
import type { PointPair } from '../geometry/similarity.ts';
import type { PicturePoint, Shape } from '../model/mark.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';
import type { Handedness } from '../model/words.ts';
import { kindOf } from '../shapes/shapes.ts';

/** What stands still on the ground at address: the ball and the feet. */
const STANDING: readonly BodyPointId[] = [
  'ball',
  'lead-heel',
  'lead-toe',
  'trail-heel',
  'trail-toe',
  'lead-ankle',
  'trail-ankle',
];

/** A clip with the hand that its player plays. */
export interface ClipOfPlayer {
  readonly clip: Pick<MarkedClip, 'width' | 'height' | 'marks' | 'checkpoints' | 'view'>;
  readonly handedness: Handedness;
}

/** How places of one clip's pictures become places of another's. */
export interface Carrying {
  /**
   * same: the pictures are of one clip, nothing is changed. ground: laid over each other by ball and feet at address.
   * size: by the size of the picture, since ball and feet are not placed in both. view: by its size too, since another view
   * has another ground.
   */
  readonly by: 'same' | 'ground' | 'size' | 'view';
  readonly mirrored: boolean;
  readonly place: (at: PicturePoint) => PicturePoint;
  /** By how much lengths grow, > 0. */
  readonly scale: number;
}

/** Between frames of one clip. */
export const SAME_CLIP: Carrying = { by: 'same', mirrored: false, place: (at) => at, scale: 1 };

/**
 * From one clip to another. Of the same view: by ball and feet at address where both clips have two or more of them placed,
 * else by picture size; mirrored left to right (x -> width - x) first when the players play from different sides. Of
 * another view: by picture size, and never mirrored, since the view itself is another.
 */
export function carryingBetween(from: ClipOfPlayer, to: ClipOfPlayer): Carrying {
  const isSameView = from.clip.view === to.clip.view;
  const mirrored = isSameView && from.handedness !== to.handedness;
  const { width } = from.clip;
  const turned = (at: PicturePoint): PicturePoint => (mirrored ? { x: width - at.x, y: at.y } : at);
  const fit = isSameView ? fitSimilarity(groundPairs(from, to, turned)) : null;
  if (fit !== null) {
    const { transform } = fit;
    const scale = Math.hypot(transform.a, transform.b);
    return { by: 'ground', mirrored, scale, place: (at) => applySimilarity(transform, turned(at)) };
  }
  const scale = to.clip.height / from.clip.height;
  const middle = { x: width / 2, y: from.clip.height / 2 };
  return {
    ...{ by: isSameView ? 'size' : 'view', mirrored, scale },
    place(at) {
      const { x, y } = turned(at);
      return { x: (x - middle.x) * scale + to.clip.width / 2, y: (y - middle.y) * scale + to.clip.height / 2 };
    },
  };
}

/** Ball and feet at address, as far as they are placed. */
export function standingAt(clip: ClipOfPlayer['clip']): readonly PicturePoint[] {
  const points = marksAt(clip, 'address')?.points ?? {};
  return STANDING.flatMap((point) => points[point] ?? []);
}

function groundPairs(
  from: ClipOfPlayer,
  to: ClipOfPlayer,
  turned: (at: PicturePoint) => PicturePoint,
): readonly PointPair[] {
  const before = marksAt(from.clip, 'address')?.points ?? {};
  const after = marksAt(to.clip, 'address')?.points ?? {};
  return STANDING.flatMap((point) => {
    const [here, there] = [before[point], after[point]];
    return here === undefined || there === undefined ? [] : [{ from: turned(here), to: there }];
  });
}

/**
 * A copy of a shape with another id, as its kind is copied. null for what belongs to its own clip: a path, ground marks and
 * straight edges.
 */
export function carriedShape(shape: Shape, { by, place, scale }: Carrying, id: string): Shape | null {
  return kindOf(shape).copied(shape, id, { isSame: by === 'same', place, scale });
}
