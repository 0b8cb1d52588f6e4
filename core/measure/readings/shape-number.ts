import type { PicturePoint } from '../../model/mark.ts';
import type { ReadingNote, Unit } from '../../model/reading.ts';
import type { Calibration, Scale } from '../camera/calibration.ts';
import { COVERAGE_FACTOR, NEARLY_FREE_ANGLE, estimate, inDegrees } from '../uncertainty/estimate.ts';
import type { Estimate } from '../uncertainty/estimate.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { valueAt } from '../uncertainty/value-at.ts';

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
      /** Standard uncertainty in `unit`, >= 0; 0 for the length of a known length, which is given. */
      readonly u: number;
      readonly interval: readonly [number, number];
      /** The ± is this many times u. */
      readonly coverage: number;
      readonly method: Estimate['method'];
      readonly notes: readonly ReadingNote[];
    }
  | { readonly id: ShapeNumberId; readonly state: 'missing'; readonly reason: 'same-place' };

/** What the numbers of shapes depend on besides the shape. */
export interface ShapeContext {
  /** Standard deviation of a placed end, corner, edge or place, pixels. */
  readonly sigma: number;
  readonly plumb: Calibration | null;
  readonly scale: Scale | null;
}

/** A length in pixels; in cm with a known length on the clip. */
export function lengthNumber(
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
  const plane = scale.isOffPlane ? 'off-known-length-plane' : 'known-length-plane';
  return measured(id, result, 'cm', ['placing-assumed', plane, ...unsure]);
}

export function angleNumber(id: ShapeNumberId, result: Estimate | null, notes: readonly ReadingNote[]): ShapeNumber {
  if (result === null) return { id, state: 'missing', reason: 'same-place' };
  const short: readonly ReadingNote[] = result.u > NEARLY_FREE_ANGLE ? ['short-line'] : [];
  return measured(id, inDegrees(result), 'deg', ['placing-assumed', ...notes, ...short]);
}

function measured(id: ShapeNumberId, result: Estimate | null, unit: Unit, notes: readonly ReadingNote[]): ShapeNumber {
  if (result === null) return { id, state: 'missing', reason: 'same-place' };
  const { value, u, interval, coverage, method } = result;
  return { id, state: 'measured', value, u, interval, coverage, method, unit, notes };
}

export function pointInputs(name: string, point: PicturePoint, u: number): readonly Quantity[] {
  return [
    { name: `${name} x`, value: point.x, u },
    { name: `${name} y`, value: point.y, u },
  ];
}

export function pointAt(values: readonly number[], slot: number): PicturePoint {
  return { x: valueAt(values, slot), y: valueAt(values, slot + 1) };
}

/** A known length, which has no ±. */
export function givenLength(lengthMm: number): ShapeNumber {
  const value = lengthMm / 10;
  const given = { unit: 'cm', u: 0, interval: [value, value], coverage: COVERAGE_FACTOR, notes: [] } as const;
  return { id: 'length', state: 'measured', value, method: 'first-order', ...given };
}
