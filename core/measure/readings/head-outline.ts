import { edgesOf } from '../../geometry/box.ts';
import type { Edges } from '../../geometry/box.ts';
import type { BoxShape, FrameMarks, PicturePoint } from '../../model/mark.ts';
import type { Checkpoint } from '../../model/words.ts';

/**
 * Where the outline of head and cap comes from, the best that there is:
 * `here`: the coach drew it on the frame that is read. `address`: drawn on the frame of address, it goes along with the head
 * centre. `box`: nothing but the head box was drawn, and how much of that the head fills is assumed.
 */
export interface HeadSource {
  readonly kind: 'here' | 'address' | 'box';
  readonly shape: BoxShape;
}

/**
 * How far the head reaches from its centre toward the edges of a head box that was drawn round it by eye: from 6 tenths of the
 * way (some 6 cm of air round a head 17 cm wide) to all of it. Rectangular, assumed, ours.
 */
export const HEAD_FILLS = [0.6, 1] as const;

/**
 * A skull's length over its breadth, 199.5 : 154.3 mm: ANSUR II, men (US Army Natick, survey of 2012, public release of 2017);
 * women 189.8 : 147.8, the same to a hundredth.
 */
const LENGTH_OVER_BREADTH = 199.5 / 154.3;

/**
 * A cap's brim reaches farther ahead than the skull, by some 75 mm: seen from the side, as at the finish, half the outline is
 * that much longer. Ours.
 */
const BRIM_OVER_BREADTH = (199.5 + 2 * 75) / 154.3;

/**
 * By how much wider the head may look than at address for having turned, a part of 1: from not at all to an ellipse, as long
 * and as broad as a skull. It turned by half a quarter up to impact and by a whole one after it. At the finish the brim
 * points to the target. Anywhere between (rectangular); the turns are assumed, ours.
 */
export function headWidens(checkpoint: Checkpoint): readonly [number, number] {
  if (checkpoint === 'finish') return [1, BRIM_OVER_BREADTH];
  return [1, checkpoint === 'through' ? LENGTH_OVER_BREADTH : Math.hypot(1, LENGTH_OVER_BREADTH) / Math.SQRT2];
}

/** Middle and standard uncertainty of a quantity that lies anywhere between two limits (JCGM 100:2008, 4.3.7). */
export function anywhereIn([low, high]: readonly [number, number]): { readonly value: number; readonly u: number } {
  return { value: (low + high) / 2, u: (high - low) / Math.sqrt(12) };
}

/** null where no head box is drawn at address. */
export function headSourceOf(here: FrameMarks | null, address: FrameMarks | null): HeadSource | null {
  const box = boxOf(address, 'head-box');
  if (box === null) return null;
  const [drawnHere, drawnAtAddress] = [boxOf(here, 'head'), boxOf(address, 'head')];
  if (drawnHere !== null) return { kind: 'here', shape: drawnHere };
  return drawnAtAddress === null ? { kind: 'box', shape: box } : { kind: 'address', shape: drawnAtAddress };
}

export function boxOf(marks: FrameMarks | null, role: 'head-box' | 'head'): BoxShape | null {
  for (const shape of marks?.shapes ?? []) if (shape.kind === 'box' && shape.role === role) return shape;
  return null;
}

export interface HeadMoves {
  /** The head centre at address and now, in the picture. */
  readonly before: PicturePoint;
  readonly after: PicturePoint;
  /** Part of the way from the centre to each edge that the head fills. */
  readonly fills: number;
  /** Wider than at address by this factor. */
  readonly widens: number;
}

/** The outline that was seen at address, gone along with the head centre and widened about it. */
export function headMoved(seen: Edges, { before, after, fills, widens }: HeadMoves): Edges {
  return {
    left: after.x - fills * widens * (before.x - seen.left),
    right: after.x + fills * widens * (seen.right - before.x),
    top: after.y - fills * (before.y - seen.top),
    bottom: after.y + fills * (seen.bottom - before.y),
  };
}

/** The outline at a checkpoint as it is most likely; what a reading measures, for drawing it. */
export function likelyHead(
  { kind, shape }: HeadSource,
  checkpoint: Checkpoint,
  before: PicturePoint,
  after: PicturePoint,
): Edges {
  const edges = edgesOf(shape);
  if (kind === 'here') return edges;
  const fills = kind === 'box' ? anywhereIn(HEAD_FILLS).value : 1;
  return headMoved(edges, { before, after, fills, widens: anywhereIn(headWidens(checkpoint)).value });
}
