import { inclineFromHorizontal, inclineFromVertical } from '../../geometry/line.ts';
import { wrapAngle } from '../../geometry/angle.ts';
import { toSwing } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import { PLANES } from '../../model/mark.ts';
import type { CircleShape, LineShape, PicturePoint, Plane, Shape } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { combine } from '../uncertainty/combine.ts';
import type { Measurement } from '../uncertainty/combine.ts';
import { apart, depthU } from './depth.ts';
import { COVERAGE_FACTOR } from '../uncertainty/estimate.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** Shapes that calibrate a clip, and what they say together. */
export interface Calibration {
  readonly shapeIds: readonly string[];
  readonly quantity: Quantity;
}

/** A scale for what lies in one plane. */
export interface Scale extends Calibration {
  /** The plane that its known lengths lie in. */
  readonly plane: Plane;
  /** Relative standard uncertainty from not lying in the known length's plane. */
  readonly depthU: number;
  /** No known length lies in the plane that is asked for. */
  readonly isOffPlane: boolean;
  /** Its own ± is so large a part of it that centimetres say nothing: mostly a known length that lies along the view. */
  readonly isUnsure: boolean;
}

/**
 * The largest ± that still tells anything of a size, as a part of it: at a half, the ends of the interval lie a factor of
 * three apart. Ours.
 */
export const MOST_OF_VALUE = 0.5;

/**
 * A plumb that leans farther than this in the picture, or a level that rises farther, is taken for the other of the two
 * and tells no vertical: 45 degrees. No camera is set up with such a roll.
 */
export const MOST_LEAN = Math.PI / 4;

/** What calibrations are read from; `straighten` takes a place as it is seen to where it would be without the lens. */
export interface CalibratedClip extends Pick<MarkedClip, 'marks' | 'view'> {
  readonly straighten?: (at: PicturePoint) => PicturePoint;
}

/** A ball's least diameter in millimetres: Rules of Golf, Equipment Rules (The R&A and USGA), 1.680 inches. */
export const BALL_MM = 42.67;

/**
 * Balls are made close to the least diameter, none smaller; how much larger they are is assumed, ours: 0.2 mm. What makes a
 * ball a weak known length is that few pixels lie across it.
 */
export const BALL_U_MM = 0.2;

/**
 * How far the true vertical leans toward +along, radians, from all plumb and level lines drawn on any frame of the clip (the
 * camera stands still through a clip), combined by their u = sqrt(2) sigma / length; those that lean past MOST_LEAN are left
 * out. null without any.
 */
export function plumbOf(clip: CalibratedClip, side: 1 | -1, sigma: number): Calibration | null {
  const found = onlyOnce(clip).flatMap((shape) => {
    if (!isPlumbOrLevel(shape)) return [];
    const [a, b] = [endIn(clip, shape.a, side), endIn(clip, shape.b, side)];
    const value = shape.role === 'plumb' ? plumbLean(a, b) : levelLean(a, b);
    const length = Math.hypot(b.along - a.along, b.up - a.up);
    if (value === null || Math.abs(value) > MOST_LEAN) return [];
    return [{ id: shape.id, value, u: (Math.SQRT2 * sigma) / length }];
  });
  const together = combine(found);
  if (together === null) return null;
  return { shapeIds: found.map(({ id }) => id), quantity: { name: 'plumb', source: 'plumb', ...together } };
}

/** Whether a shape is there to tell the vertical. */
export function isPlumbOrLevel(shape: Shape): shape is LineShape & { readonly role: 'plumb' | 'level' } {
  return shape.kind === 'line' && (shape.role === 'plumb' || shape.role === 'level');
}

function endIn({ straighten }: CalibratedClip, at: PicturePoint, side: 1 | -1): SwingPoint {
  return toSwing(straighten?.(at) ?? at, { side, tilt: 0 });
}

/** Its lean toward +along, whichever end is the upper one. */
function plumbLean(a: SwingPoint, b: SwingPoint): number | null {
  return a.up < b.up ? inclineFromVertical(a, b) : inclineFromVertical(b, a);
}

/** A level that rises toward +along means a vertical that leans the other way, by as much. */
function levelLean(a: SwingPoint, b: SwingPoint): number | null {
  const rise = inclineFromHorizontal(a, b);
  return rise === null ? null : -wrapAngle(rise, Math.PI);
}

interface MarkedLength extends Measurement {
  readonly id: string;
  readonly plane: Plane;
}

/**
 * Centimetres a pixel, > 0, for what lies in `plane`: from all known lengths (and balls) of the clip that lie in it, combined
 * by their u; where there is none, from those of the other plane, and then it says so. u holds the placing of both ends and
 * the known length's own length; what the depth of a thing adds stands apart in `depthU`. `distance`: of the camera, metres.
 * null without any known length.
 */
export function scaleOf(clip: CalibratedClip, plane: Plane, sigma: number, distance?: number): Scale | null {
  const all = markedLengths(clip, sigma);
  const near = all.filter((each) => each.plane === plane);
  const used = near.length > 0 ? near : all;
  const together = combine(used);
  if (together === null) return null;
  const other = PLANES.find((each) => each !== plane) ?? plane;
  const lies = near.length > 0 ? plane : other;
  const gap = near.length > 0 ? 0 : apart(clip.view, plane, other);
  return {
    plane: lies,
    shapeIds: used.map(({ id }) => id),
    quantity: { name: `known length for ${plane}`, source: 'scale', ...together },
    depthU: depthU(gap, distance),
    isOffPlane: gap > 0,
    isUnsure: COVERAGE_FACTOR * together.u > MOST_OF_VALUE * together.value,
  };
}

/** Whether `scaleOf` would give a scale. */
export function hasKnownLength(clip: CalibratedClip): boolean {
  return markedLengths(clip, 1).length > 0;
}

function markedLengths(clip: CalibratedClip, sigma: number): readonly MarkedLength[] {
  return onlyOnce(clip).flatMap((shape) => {
    if (shape.kind === 'line' && shape.role === 'yardstick') return markedLine(clip, shape, sigma) ?? [];
    if (shape.kind === 'circle' && shape.role === 'ball') return markedBall(shape, sigma) ?? [];
    return [];
  });
}

function markedLine({ straighten }: CalibratedClip, line: LineShape, sigma: number): MarkedLength | null {
  const [a, b] = [straighten?.(line.a) ?? line.a, straighten?.(line.b) ?? line.b];
  const pixels = Math.hypot(b.x - a.x, b.y - a.y);
  if (line.lengthMm === null || pixels === 0) return null;
  const value = line.lengthMm / 10 / pixels;
  const relative = Math.hypot((Math.SQRT2 * sigma) / pixels, (line.lengthUMm ?? 0) / line.lengthMm);
  return { id: line.id, plane: line.plane ?? 'player', value, u: value * relative };
}

/**
 * A circle drawn from its middle has a radius between two clicks, u = sqrt(2) sigma. One fitted to n places all round has
 * a radius of u = sigma / sqrt(n), from the fit's normal equations, for places spread evenly; for n on half of the edge it
 * is about twice that, which is taken, since nobody spreads them evenly.
 */
function markedBall(circle: CircleShape, sigma: number): MarkedLength | null {
  if (circle.radius === 0) return null;
  const value = BALL_MM / 10 / (2 * circle.radius);
  const places = circle.rim?.length ?? 0;
  const radiusU = places < 3 ? Math.SQRT2 * sigma : (2 * sigma) / Math.sqrt(places);
  return { id: circle.id, plane: 'ball', value, u: value * Math.hypot(radiusU / circle.radius, BALL_U_MM / BALL_MM) };
}

/** All shapes of a clip on which its vertical and its scale rest, copies among them. */
export function calibratingShapes({ marks }: Pick<MarkedClip, 'marks'>): readonly Shape[] {
  return marks.flatMap(({ shapes }) => shapes.filter(isCalibrating));
}

/** All shapes that calibrate the clip; what was copied from frame to frame is one measurement and counts once. */
function onlyOnce(clip: Pick<MarkedClip, 'marks'>): readonly Shape[] {
  const seen = new Set<string>();
  return calibratingShapes(clip).filter((shape) => {
    const place = placeOf(shape);
    if (seen.has(place)) return false;
    seen.add(place);
    return true;
  });
}

/** Lines and circles that stand for something; few among all that is drawn, and asked for with every move of a mark. */
function isCalibrating(shape: Shape): boolean {
  return (shape.kind === 'line' && shape.role !== null) || (shape.kind === 'circle' && shape.role !== undefined);
}

function placeOf(shape: Shape): string {
  if (shape.kind === 'line') return JSON.stringify([shape.role, shape.a, shape.b]);
  return shape.kind === 'circle' ? JSON.stringify([shape.role, shape.centre, shape.radius]) : shape.id;
}
