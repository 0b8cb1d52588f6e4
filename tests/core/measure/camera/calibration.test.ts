import { describe, expect, it } from 'vitest';
import { BALL_MM, hasKnownLength, plumbOf, scaleOf } from '../../../../core/measure/camera/calibration.ts';
import { combine } from '../../../../core/measure/uncertainty/combine.ts';
import { apart, depthU, seemsLarger } from '../../../../core/measure/camera/depth.ts';
import type { LineShape, Shape } from '../../../../core/model/mark.ts';
import type { View } from '../../../../core/model/words.ts';
import { within } from '../../../support/within.ts';

const DEGREE = Math.PI / 180;
const SIGMA = 3;

const clip = (shapes: readonly Shape[], view: View = 'face-on') => ({
  view,
  marks: [{ frame: { index: 0, pts: 0 }, points: {}, shapes }],
});

function lineAt(id: string, degrees: number, length: number, more: Partial<LineShape>): LineShape {
  const [x, y] = [length * Math.cos(degrees * DEGREE), -length * Math.sin(degrees * DEGREE)];
  return {
    id,
    kind: 'line',
    a: { x: 300, y: 700 },
    b: { x: 300 + x, y: 700 + y },
    role: null,
    lengthMm: null,
    ...more,
  };
}
const stick = (id: string, length: number, more: Partial<LineShape> = {}) =>
  lineAt(id, 0, length, { role: 'yardstick', lengthMm: 1000, ...more });

describe('several measurements of one thing', () => {
  it('have the weighted mean and less u than each: 10 ± 1 and 11 ± 2 give 10.2 ± 0.894', () => {
    // Weights 1 and 1/4: (10 + 11/4) / 1.25 = 10.2, u = 1 / sqrt(1.25); chi squared 0.2 does not widen it.
    const both = combine([
      { value: 10, u: 1 },
      { value: 11, u: 2 },
    ]);
    within(both?.value ?? Number.NaN, 10.2, 1e-12);
    within(both?.u ?? Number.NaN, 1 / Math.sqrt(1.25), 1e-12);
  });

  it('that contradict each other are as unsure as they differ: 10 ± 1 and 20 ± 1 give 15 ± 5', () => {
    // chi squared 50 over one degree of freedom: 1 / sqrt(2) times sqrt(50) is 5.
    const both = combine([
      { value: 10, u: 1 },
      { value: 20, u: 1 },
    ]);
    within(both?.value ?? Number.NaN, 15, 1e-12);
    within(both?.u ?? Number.NaN, 5, 1e-12);
  });

  it('alone is itself, none is nothing', () => {
    expect(combine([{ value: 3, u: 0.5 }])).toEqual({ value: 3, u: 0.5 });
    expect(combine([])).toBeNull();
  });
});

describe('the vertical', () => {
  it('is told by a plumb and by a level alike: a camera that rolled 2 degrees', () => {
    // The true vertical leans 2 degrees to picture right; what is level then falls 2 degrees to the right.
    for (const shape of [lineAt('p', 88, 600, { role: 'plumb' }), lineAt('l', -2, 600, { role: 'level' })]) {
      const found = plumbOf(clip([shape]), 1, SIGMA);
      within(found?.quantity.value ?? Number.NaN, 2 * DEGREE, 1e-12, shape.id);
      within(found?.quantity.u ?? Number.NaN, (Math.SQRT2 * SIGMA) / 600, 1e-12, shape.id);
      within(plumbOf(clip([shape]), -1, SIGMA)?.quantity.value ?? Number.NaN, -2 * DEGREE, 1e-12, shape.id);
    }
  });

  it('does not care which end was drawn first', () => {
    for (const [role, degrees] of [
      ['plumb', 89],
      ['level', -1],
    ] as const) {
      const one = lineAt('x', degrees, 500, { role });
      const other = { ...one, a: one.b, b: one.a };
      within(plumbOf(clip([other]), 1, SIGMA)?.quantity.value ?? Number.NaN, DEGREE, 1e-12, role);
    }
  });

  it('is surer from two lines, and names both; a copy of one on another frame adds nothing', () => {
    const [one, two] = [lineAt('1', 90, 600, { role: 'plumb' }), lineAt('2', 0, 600, { role: 'level' })];
    const both = plumbOf(clip([one, two]), 1, SIGMA);
    within(both?.quantity.u ?? Number.NaN, SIGMA / 600, 1e-12);
    expect(both?.shapeIds).toEqual(['1', '2']);
    const copied = {
      view: 'face-on' as const,
      marks: [clip([one]), clip([{ ...one, id: '9' }])].flatMap((c) => c.marks),
    };
    expect(plumbOf(copied, 1, SIGMA)).toEqual(plumbOf(clip([one]), 1, SIGMA));
  });

  it('is not told by plain lines or lines without length', () => {
    expect(plumbOf(clip([lineAt('1', 90, 600, {})]), 1, SIGMA)).toBeNull();
    expect(plumbOf(clip([lineAt('1', 90, 0, { role: 'plumb' })]), 1, SIGMA)).toBeNull();
  });
});

describe('the scale', () => {
  it('of a metre over 500 px is 0.2 cm a pixel, as sure as its ends and its length', () => {
    const exact = scaleOf(clip([stick('1', 500)]), 'player', SIGMA);
    within(exact?.quantity.value ?? Number.NaN, 0.2, 1e-12);
    within(exact?.quantity.u ?? Number.NaN, (0.2 * Math.SQRT2 * SIGMA) / 500, 1e-12);
    const loose = scaleOf(clip([stick('1', 500, { lengthUMm: 20 })]), 'player', SIGMA);
    within(loose?.quantity.u ?? Number.NaN, 0.2 * Math.hypot((Math.SQRT2 * SIGMA) / 500, 0.02), 1e-12);
  });

  it('comes from all known lengths of the plane that is asked for', () => {
    const found = scaleOf(
      clip([stick('1', 500), stick('2', 505), stick('3', 580, { plane: 'ball' })]),
      'player',
      SIGMA,
    );
    expect(found?.shapeIds).toEqual(['1', '2']);
    expect(found?.isOffPlane).toBe(false);
    within(found?.depthU ?? Number.NaN, depthU(0), 1e-12);
    // Between the two, nearer to the longer one, and surer than either.
    expect(found?.quantity.value).toBeGreaterThan(1 / 5.05);
    expect(found?.quantity.value).toBeLessThan(0.2);
    expect(found?.quantity.u).toBeLessThan((0.2 * Math.SQRT2 * SIGMA) / 500);
  });

  it('says when no known length lies there, and is as unsure as the gap makes it: D / (D - d) - 1 for 1 m at 5 m is 25 %', () => {
    const found = scaleOf(clip([stick('1', 500)]), 'ball', SIGMA);
    expect(found?.isOffPlane).toBe(true);
    within(found?.depthU ?? Number.NaN, 0.25 / Math.sqrt(3), 1e-12);
    // Down the line ball and player are equally far.
    expect(scaleOf(clip([stick('1', 500)], 'down-the-line'), 'ball', SIGMA)?.isOffPlane).toBe(false);
  });

  it('of a ball is weak: 21 px across, each edge to 3 px', () => {
    const ball: Shape = { id: 'b', kind: 'circle', centre: { x: 9, y: 9 }, radius: 10.65, role: 'ball' };
    const found = scaleOf(clip([ball]), 'ball', SIGMA);
    within(found?.quantity.value ?? Number.NaN, BALL_MM / 10 / 21.3, 1e-12);
    expect((found?.quantity.u ?? 0) / (found?.quantity.value ?? 1)).toBeGreaterThan(0.3);
    const rim = { ...ball, rim: [0, 1, 2, 3, 4, 5, 6, 7].map((x) => ({ x, y: 0 })) };
    expect(scaleOf(clip([rim]), 'ball', SIGMA)?.quantity.u).toBeLessThan(found?.quantity.u ?? 0);
  });

  it('is not there without a known length, or with one without length', () => {
    expect(scaleOf(clip([lineAt('1', 0, 500, {})]), 'player', SIGMA)).toBeNull();
    expect(hasKnownLength(clip([stick('1', 0)]))).toBe(false);
    expect(hasKnownLength(clip([stick('1', 5)]))).toBe(true);
  });
});

describe('depth', () => {
  it('planes lie apart face on only', () => {
    expect(apart('face-on', 'player', 'player')).toBe(0);
    expect(apart('face-on', 'player', 'ball')).toBe(apart('face-on', 'ball', 'player'));
    expect(apart('down-the-line', 'player', 'ball')).toBe(0);
  });

  it('nothing lies behind the lens', () => {
    expect(() => seemsLarger(5, 5)).toThrow('smaller');
    expect(Number.isFinite(depthU(50, 1))).toBe(true);
  });
});
