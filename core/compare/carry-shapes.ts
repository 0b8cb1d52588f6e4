import { fitCircle } from '../geometry/fit-circle.ts';
import { applySimilarity, fitSimilarity } from '../geometry/similarity.ts';
import type { PointPair } from '../geometry/similarity.ts';
import type { PicturePoint, Shape } from '../model/mark.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';
import type { Handedness } from '../model/words.ts';
import { OVERLAY_POINTS } from './overlay.ts';

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

function groundPairs(
  from: ClipOfPlayer,
  to: ClipOfPlayer,
  turned: (at: PicturePoint) => PicturePoint,
): readonly PointPair[] {
  const before = marksAt(from.clip, 'address')?.points ?? {};
  const after = marksAt(to.clip, 'address')?.points ?? {};
  return OVERLAY_POINTS.flatMap((point) => {
    const [here, there] = [before[point], after[point]];
    return here === undefined || there === undefined ? [] : [{ from: turned(here), to: there }];
  });
}

/**
 * A copy of a shape with another id. What a shape stands for (plumb, yardstick, head box) holds for its own clip: a copy
 * onto another clip is plain, and a line that was on all frames for what it stood for is on its own. A box stays upright: it is the one around its turned corners. A circle through places is
 * fitted to the carried places. null for a path, whose places belong to the frames of its clip, and for ground marks and
 * straight edges, which tell of its camera.
 */
export function carriedShape(shape: Shape, { by, place, scale }: Carrying, id: string): Shape | null {
  const isSame = by === 'same';
  switch (shape.kind) {
    case 'line': {
      const ends = { a: place(shape.a), b: place(shape.b) };
      return isSame
        ? { ...shape, ...ends, id }
        : { id, kind: 'line', ...ends, role: null, lengthMm: null, ...(shape.role === null ? carriedOf(shape) : {}) };
    }
    case 'angle':
      return { ...shape, id, vertex: place(shape.vertex), a: place(shape.a), b: place(shape.b) };
    case 'box': {
      if (isSame) return { ...shape, id };
      const { x, y, width, height } = shape;
      const corners = [
        { x, y },
        { x: x + width, y },
        { x, y: y + height },
        { x: x + width, y: y + height },
      ].map(place);
      const across = corners.map((corner) => corner.x);
      const down = corners.map((corner) => corner.y);
      const [left, top] = [Math.min(...across), Math.min(...down)];
      const size = { width: Math.max(...across) - left, height: Math.max(...down) - top };
      return { ...shape, id, x: left, y: top, ...size, role: null };
    }
    case 'circle': {
      const centre = place(shape.centre);
      const role = isSame && shape.role !== undefined ? { role: shape.role } : {};
      const plain = { id, kind: 'circle', ...carriedOf(shape), ...role } as const;
      if (shape.rim === undefined) return { ...plain, centre, radius: shape.radius * scale };
      const rim = shape.rim.map(place);
      const fit = isSame ? null : fitCircle(rim);
      return { ...plain, centre: fit?.centre ?? centre, radius: fit?.radius ?? shape.radius * scale, rim };
    }
    case 'free':
      return { ...shape, id, places: shape.places.map(place) };
    case 'path':
    case 'ground':
    case 'edge':
      return null;
  }
}

function carriedOf({ carried }: Shape): { readonly carried?: true } {
  return carried === true ? { carried } : {};
}
