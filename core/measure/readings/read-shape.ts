import { interiorAngle, wrapAngle } from '../../geometry/angle.ts';
import { fitCircle } from '../../geometry/fit-circle.ts';
import { inclineFromHorizontal } from '../../geometry/line.ts';
import { toSwing } from '../../geometry/point.ts';
import type { AngleShape, BoxShape, CircleShape, LineShape, PicturePoint, Plane, Shape } from '../../model/mark.ts';
import type { ReadingNote, Unit } from '../../model/reading.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { View } from '../../model/words.ts';
import { calibratingShapes, plumbOf, scaleOf } from '../camera/calibration.ts';
import type { Calibration, Scale } from '../camera/calibration.ts';
import { COVERAGE_FACTOR, NEARLY_FREE_ANGLE, estimate, inDegrees } from '../uncertainty/estimate.ts';
import type { Estimate } from '../uncertainty/estimate.ts';
import { ASSUMED_PLACING, placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { remembered } from '../memoise.ts';
import { valueAt } from './place-inputs.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** What can be read from one drawn shape. */
export const SHAPE_NUMBERS = ['incline', 'length', 'angle', 'width', 'height', 'radius', 'diameter'] as const;
export type ShapeNumberId = (typeof SHAPE_NUMBERS)[number];

/** One number of one shape; `missing` when the shape has no extent there (a line of length 0 has no incline). */
export type ShapeNumber =
  | {
      readonly id: ShapeNumberId;
      readonly state: 'measured';
      readonly value: number;
      /** deg, cm or px. */
      readonly unit: Unit;
      /** Standard uncertainty in `unit`, >= 0; 0 for the length of a yardstick, which is given. */
      readonly u: number;
      readonly interval: readonly [number, number];
      /** The ± is this many times u. */
      readonly coverage: number;
      readonly method: Estimate['method'];
      readonly notes: readonly ReadingNote[];
    }
  | { readonly id: ShapeNumberId; readonly state: 'missing'; readonly reason: 'same-place' };

/** What of a clip a shape's numbers depend on: the height of its picture and the plumb and yardstick drawn on it. */
export type ShapeClip = Pick<MarkedClip, 'height' | 'marks' | 'view'>;

interface ShapeContext {
  readonly sigma: number;
  readonly plumb: Calibration | null;
  readonly scale: Scale | null;
}

/**
 * The numbers of one shape. A line: incline from horizontal, in degrees in (-90, 90], + when it rises toward picture
 * right, turned by the plumb where there is one; and length. An angle: in [0, 180]. A box: width and height. A circle:
 * radius and diameter, of one through places on its edge from all of them. A free line and a path have none. Lengths in
 * cm with a yardstick on the clip, else in px. Ends, corners, edges and places are taken to be placed as surely as a
 * body point.
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
const numbersOf = remembered((shape: Shape, context: ShapeContext): readonly ShapeNumber[] => {
  switch (shape.kind) {
    case 'line':
      return readLine(shape, context);
    case 'angle':
      return [readAngle(shape, context)];
    case 'box':
      return readBox(shape, context);
    case 'circle':
      return readCircle(shape, context);
    case 'free':
    case 'path':
    case 'ground':
    case 'edge':
      return [];
  }
});

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

/** A shape says of itself where it lies only as a yardstick; others are taken to lie where the player stands. */
function planeOf(shape: Shape): Plane {
  return shape.kind === 'circle' && shape.role === 'ball' ? 'ball' : 'player';
}

function readLine(line: LineShape, context: ShapeContext): readonly ShapeNumber[] {
  // The plumb's own incline shows how far the camera rolled; turned by itself it would always be 90. A level likewise.
  const isUpright = line.role === 'plumb' || line.role === 'level';
  const plumb = isUpright ? null : context.plumb;
  const ends = [...pointInputs('a', line.a, context.sigma), ...pointInputs('b', line.b, context.sigma)];
  const quantities = plumb === null ? ends : [...ends, plumb.quantity];
  const incline = estimate(
    (values) => {
      const stance = { side: 1, tilt: plumb === null ? 0 : valueAt(values, 4) } as const;
      const rise = inclineFromHorizontal(toSwing(pointAt(values, 0), stance), toSwing(pointAt(values, 2), stance));
      return rise === null ? null : wrapAngle(rise, Math.PI);
    },
    { quantities },
    { kind: 'angle', period: Math.PI },
  );
  const notes: readonly ReadingNote[] = plumb === null && !isUpright ? ['no-plumb'] : [];
  if (line.role === 'yardstick' && line.lengthMm !== null) {
    const value = line.lengthMm / 10;
    const given: ShapeNumber = {
      id: 'length',
      state: 'measured',
      value,
      unit: 'cm',
      u: 0,
      interval: [value, value],
      coverage: COVERAGE_FACTOR,
      method: 'first-order',
      notes: [],
    };
    return [angleNumber('incline', incline, notes), given];
  }
  const length = (values: readonly number[]) => gap(pointAt(values, 0), pointAt(values, 2));
  return [angleNumber('incline', incline, notes), lengthNumber('length', length, ends, context)];
}

function readAngle(shape: AngleShape, { sigma }: ShapeContext): ShapeNumber {
  const quantities = [
    ...pointInputs('vertex', shape.vertex, sigma),
    ...pointInputs('a', shape.a, sigma),
    ...pointInputs('b', shape.b, sigma),
  ];
  const place = (values: readonly number[], slot: number) => toSwing(pointAt(values, slot), { side: 1, tilt: 0 });
  const result = estimate(
    (values) => interiorAngle(place(values, 0), place(values, 2), place(values, 4)),
    { quantities },
    { kind: 'angle', range: [0, Math.PI] },
  );
  return angleNumber('angle', result, []);
}

function readBox(box: BoxShape, context: ShapeContext): readonly ShapeNumber[] {
  const side = (id: 'width' | 'height', start: number, extent: number): ShapeNumber => {
    const edges = [
      { name: 'first edge', value: start, u: context.sigma },
      { name: 'second edge', value: start + extent, u: context.sigma },
    ];
    return lengthNumber(id, (values) => Math.abs(valueAt(values, 1) - valueAt(values, 0)), edges, context);
  };
  return [side('width', box.x, box.width), side('height', box.y, box.height)];
}

function readCircle(circle: CircleShape, context: ShapeContext): readonly ShapeNumber[] {
  const rim = circle.rim ?? [];
  if (rim.length >= 3) {
    const places = rim.flatMap((place, at) => pointInputs(String(at), place, context.sigma));
    const fitted = (values: readonly number[]) =>
      fitCircle(rim.map((_, at) => pointAt(values, 2 * at)))?.radius ?? null;
    return [
      lengthNumber('radius', fitted, places, context),
      lengthNumber('diameter', (values) => doubled(fitted(values)), places, context),
    ];
  }
  // Centre and rim are each placed by hand: along the radius both err.
  const radius = [{ name: 'radius', value: circle.radius, u: Math.SQRT2 * context.sigma }];
  return [
    lengthNumber('radius', (values) => Math.abs(valueAt(values, 0)), radius, context),
    lengthNumber('diameter', (values) => 2 * Math.abs(valueAt(values, 0)), radius, context),
  ];
}

function doubled(value: number | null): number | null {
  return value === null ? null : 2 * value;
}

function lengthNumber(
  id: ShapeNumberId,
  pixels: (values: readonly number[]) => number | null,
  quantities: readonly Quantity[],
  { scale }: ShapeContext,
): ShapeNumber {
  const options = { kind: 'number', range: [0, Infinity] } as const;
  if (scale === null) {
    const result = estimate(pixels, { quantities }, options);
    return measured(id, result, 'px', ['placing-assumed', 'uncalibrated']);
  }
  const depth: Quantity = { name: 'off the plane', value: 1, u: scale.depthU, source: 'depth' };
  const slot = quantities.length;
  const result = estimate(
    (values) => {
      const length = pixels(values);
      return length === null ? null : length * valueAt(values, slot) * valueAt(values, slot + 1);
    },
    { quantities: [...quantities, scale.quantity, depth] },
    options,
  );
  const unsure: readonly ReadingNote[] = scale.isUnsure ? ['scale-unsure'] : [];
  const plane = scale.isOffPlane ? 'off-yardstick-plane' : 'yardstick-plane';
  return measured(id, result, 'cm', ['placing-assumed', plane, ...unsure]);
}

function angleNumber(id: ShapeNumberId, result: Estimate | null, notes: readonly ReadingNote[]): ShapeNumber {
  if (result === null) return { id, state: 'missing', reason: 'same-place' };
  const short: readonly ReadingNote[] = result.u > NEARLY_FREE_ANGLE ? ['short-line'] : [];
  return measured(id, inDegrees(result), 'deg', ['placing-assumed', ...notes, ...short]);
}

function measured(id: ShapeNumberId, result: Estimate | null, unit: Unit, notes: readonly ReadingNote[]): ShapeNumber {
  if (result === null) return { id, state: 'missing', reason: 'same-place' };
  const { value, u, interval, coverage, method } = result;
  return { id, state: 'measured', value, u, interval, coverage, method, unit, notes };
}

function pointInputs(name: string, point: PicturePoint, u: number): readonly Quantity[] {
  return [
    { name: `${name} x`, value: point.x, u },
    { name: `${name} y`, value: point.y, u },
  ];
}

function pointAt(values: readonly number[], slot: number): PicturePoint {
  return { x: valueAt(values, slot), y: valueAt(values, slot + 1) };
}

function gap(a: PicturePoint, b: PicturePoint): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
