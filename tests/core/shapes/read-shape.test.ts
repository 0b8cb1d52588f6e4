import { describe, expect, it } from 'vitest';
import { readShape } from '../../../core/shapes/read-shape.ts';
import type { ShapeNumber, ShapeNumberId } from '../../../core/measure/readings/shape-number.ts';
import type { Shape } from '../../../core/model/mark.ts';
import { within } from '../../support/within.ts';
import { line } from '../measure/invented-swing.ts';

const clip = (...shapes: readonly Shape[]) => ({
  height: 1080,
  view: 'face-on' as const,
  marks: [{ frame: { index: 0, pts: 0 }, points: {}, shapes }],
});

function numberOf(numbers: readonly ShapeNumber[], id: ShapeNumberId) {
  const found = numbers.find((number) => number.id === id);
  if (found?.state !== 'measured') throw new Error(`${id} is ${found?.state ?? 'not there'}`);
  return found;
}

const DEGREE = Math.PI / 180;
const knownLength = line('yardstick', { x: 100, y: 900 }, { x: 600, y: 900 }, 1000);

describe('a drawn line', () => {
  it('3-4-5: rises 36.87 degrees to the right over 500 px, whichever end was drawn first', () => {
    const [a, b] = [
      { x: 100, y: 800 },
      { x: 500, y: 500 },
    ];
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const numbers = readShape(line(null, from, to, null), clip());
      within(numberOf(numbers, 'incline').value, 36.86989764584402, 1e-9);
      within(numberOf(numbers, 'incline').u, (3 * Math.SQRT2) / 500 / DEGREE, 1e-6);
      expect(numberOf(numbers, 'incline').notes).toEqual(['placing-assumed', 'no-plumb']);
      expect(numberOf(numbers, 'length')).toMatchObject({ value: 500, unit: 'px' });
      within(numberOf(numbers, 'length').u, 3 * Math.SQRT2, 1e-6);
    }
  });

  it('falls to the right with a minus, is 90 when upright', () => {
    within(numberOf(readShape(line(null, { x: 0, y: 0 }, { x: 10, y: 10 }, null), clip()), 'incline').value, -45, 1e-9);
    within(numberOf(readShape(line(null, { x: 5, y: 0 }, { x: 5, y: 99 }, null), clip()), 'incline').value, 90, 1e-9);
  });

  it('is turned by a plumb, which itself shows how far the camera rolled', () => {
    const plumb = line('plumb', { x: 0, y: 900 }, { x: 900 * Math.tan(2 * DEGREE), y: 0 }, null);
    const level = line(null, { x: 100, y: 500 }, { x: 600, y: 500 }, null);
    within(numberOf(readShape(level, clip(plumb)), 'incline').value, 2, 1e-9);
    within(numberOf(readShape(plumb, clip(plumb)), 'incline').value, 88, 1e-9);
  });

  it('is stated in centimetres with a known length; the known length itself has the length it was given', () => {
    const drawn = line(null, { x: 0, y: 0 }, { x: 250, y: 0 }, null);
    const length = numberOf(readShape(drawn, clip(knownLength)), 'length');
    within(length.value, 50, 1e-9);
    expect(length).toMatchObject({ unit: 'cm', notes: ['placing-assumed', 'known-length-plane'] });
    expect(numberOf(readShape(knownLength, clip(knownLength)), 'length')).toMatchObject({
      value: 100,
      unit: 'cm',
      u: 0,
    });
  });

  it('without length has no incline, and a length of 0 with an interval that starts there', () => {
    const numbers = readShape(line(null, { x: 7, y: 7 }, { x: 7, y: 7 }, null), clip());
    expect(numbers[0]).toEqual({ id: 'incline', state: 'missing', reason: 'same-place' });
    const length = numberOf(numbers, 'length');
    expect(length).toMatchObject({ value: 0, method: 'monte-carlo' });
    expect(length.interval[0]).toBe(0);
    // The distance of two clicks of sd 3 sqrt(2) is a Rayleigh variable: 95 % below 2.448 sd.
    expect(length.interval[1]).toBeGreaterThan(2.3 * 3 * Math.SQRT2 * 0.8);
  });
});

describe('other drawn shapes', () => {
  it('an angle is the interior one', () => {
    const shape = {
      id: 'a',
      kind: 'angle',
      vertex: { x: 0, y: 0 },
      a: { x: 300, y: 0 },
      b: { x: 0, y: -300 },
    } as const;
    within(numberOf(readShape(shape, clip()), 'angle').value, 90, 1e-9);
    const flat = { ...shape, b: { x: -300, y: 0 } };
    within(numberOf(readShape(flat, clip()), 'angle').value, 180, 1e-9);
    expect(numberOf(readShape(flat, clip()), 'angle').u).toBeGreaterThan(1);
    expect(readShape({ ...shape, b: shape.vertex }, clip())).toEqual([
      { id: 'angle', state: 'missing', reason: 'same-place' },
    ]);
  });

  it('a box has width and height, each between two placed edges', () => {
    const box = { id: 'b', kind: 'box', role: null, x: 10, y: 20, width: 200, height: 100 } as const;
    const numbers = readShape(box, clip());
    expect(numbers.map((number) => number.id)).toEqual(['width', 'height']);
    within(numberOf(numbers, 'width').value, 200, 0);
    within(numberOf(numbers, 'height').u, 3 * Math.SQRT2, 1e-6);
    within(numberOf(readShape(box, clip(knownLength)), 'width').value, 40, 1e-9);
  });

  it('a circle has radius and diameter, and twice the radius is twice as unsure', () => {
    const circle = { id: 'c', kind: 'circle', centre: { x: 500, y: 500 }, radius: 120 } as const;
    const numbers = readShape(circle, clip());
    within(numberOf(numbers, 'diameter').value, 240, 0);
    within(numberOf(numbers, 'diameter').u, 2 * numberOf(numbers, 'radius').u, 1e-6);
  });
});
