import { calibratingShapes, plumbOf, scaleOf } from '../measure/camera/calibration.ts';
import { remembered } from '../measure/memoise.ts';
import type { ShapeContext, ShapeNumber } from '../measure/readings/shape-number.ts';
import { ASSUMED_PLACING, placingSigma } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import type { Plane, Shape } from '../model/mark.ts';
import type { MarkedClip } from '../model/swing.ts';
import type { View } from '../model/words.ts';
import { kindOf } from './shapes.ts';

/** What of a clip a shape's numbers depend on: the height of its picture and the plumb and known length drawn on it. */
export type ShapeClip = Pick<MarkedClip, 'height' | 'marks' | 'view'>;

/**
 * The numbers of one shape, as its kind says. Lengths are in cm with a known length on the clip, else in px. Ends, corners, edges
 * and places are taken to be placed as surely as a body point.
 */
export function readShape(
  shape: Shape,
  clip: ShapeClip,
  placing: PlacingErrors = ASSUMED_PLACING,
): readonly ShapeNumber[] {
  const [first = UNCALIBRATED, ...others] = calibratingShapes(clip);
  return numbersOf(shape, contextOf(first, clip.height, clip.view, planeOf(shape), placing, ...others));
}

/** Of many shapes that are asked about with every move of one mark, mostly one at most has changed. */
const numbersOf = remembered((shape: Shape, context: ShapeContext) => kindOf(shape).numbers(shape, context));

/** Stands for the calibrating shapes of a clip that has none. */
const UNCALIBRATED = {};

/** What shapes of a clip in one plane share; the same as long as no shape that calibrates it changes. */
const contextOf = remembered(
  (
    first: Shape | typeof UNCALIBRATED,
    height: number,
    view: View,
    plane: Plane,
    placing: PlacingErrors,
    ...others: readonly Shape[]
  ): ShapeContext => {
    const { sigma } = placingSigma(placing, height, null, false);
    const shapes = 'id' in first ? [first, ...others] : [];
    const clip = { view, marks: [{ frame: { index: 0, pts: 0 }, points: {}, shapes }] };
    return { sigma, plumb: plumbOf(clip, 1, sigma), scale: scaleOf(clip, plane, sigma) };
  },
);

/** A shape says of itself where it lies only as a known length; others are taken to lie where the player stands. */
function planeOf(shape: Shape): Plane {
  return shape.kind === 'circle' && shape.role === 'ball' ? 'ball' : 'player';
}
