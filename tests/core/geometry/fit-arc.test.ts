import { describe, expect, it } from 'vitest';
import { lowPointOf, nearestOnArc, placeOnArc } from '../../../core/geometry/arc.ts';
import type { Arc } from '../../../core/geometry/arc.ts';
import { FARTHEST_LOW, fitArc, fitFreeArc } from '../../../core/geometry/fit-arc.ts';
import type { ArcFit } from '../../../core/geometry/fit-arc.ts';
import { fitCircle } from '../../../core/geometry/fit-circle.ts';
import { entry } from '../../../core/geometry/linear.ts';
import type { SwingPoint } from '../../../core/geometry/point.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 6174;
const DEGREE = Math.PI / 180;
const ARC: Arc = { centre: { along: 900, up: -420 }, radius: 350, incline: 52 * DEGREE };

/** Evenly from one phase to another, degrees; the low point is at -90. */
const phases = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => (from + ((to - from) * i) / (count - 1)) * DEGREE);
const on = (arc: Arc, at: readonly number[]) => at.map((phase) => placeOnArc(arc, phase));
const shaken = (points: readonly SwingPoint[], placing: number, numbers: Seeded) =>
  points.map(({ along, up }) => ({ along: along + placing * numbers.normal(), up: up + placing * numbers.normal() }));
function fitted(points: readonly SwingPoint[], incline = ARC.incline): ArcFit {
  const fit = fitArc(points, incline);
  if (fit.state !== 'fitted') throw new Error(`${fit.reason} (seed ${String(SEED)})`);
  return fit.arc;
}
const reasonOf = (points: readonly SwingPoint[], incline = ARC.incline) => {
  const fit = fitArc(points, incline);
  return fit.state === 'refused' ? fit.reason : 'fitted';
};

describe("the clubhead's arc", () => {
  it('is the one the points lie on, whatever its incline', () => {
    for (const incline of [20, 45, 52, 62, 89, 90]) {
      const arc = { ...ARC, incline: incline * DEGREE };
      const fit = fitted(on(arc, phases(-150, -50, 8)), arc.incline);
      within(fit.centre.along, 900, 1e-7);
      within(fit.centre.up, -420, 1e-7);
      within(fit.radius, 350, 1e-7);
      within(fit.residual, 0, 1e-7);
      within(fit.low.along, 900, 1e-7);
      within(fit.low.up, -420 - 350 * Math.sin(arc.incline), 1e-7);
    }
  });

  it('is worked by hand: radius 100 in a plane of 30 degrees is 100 wide and 50 deep', () => {
    const half = Math.sqrt(3) / 2;
    // The places at -180, -150, -120, -90, -60 and -30 degrees.
    const points = [
      [-100, 0],
      [-100 * half, -25],
      [-50, -50 * half],
      [0, -50],
      [50, -50 * half],
      [100 * half, -25],
    ].map(([along = 0, up = 0]) => ({ along, up }));
    const fit = fitted(points, 30 * DEGREE);
    within(fit.radius, 100, 1e-8);
    within(fit.low.along, 0, 1e-8);
    within(fit.low.up, -50, 1e-8);
    within(Math.abs(fit.from), Math.PI, 1e-8);
    within(fit.to - fit.from, 150 * DEGREE, 1e-8);
    expect(fit.beyond).toBe(0);
  });

  it('upright is the circle that fits best', () => {
    const numbers = seeded(SEED);
    for (let time = 0; time < 50; time += 1) {
      const points = shaken(on({ ...ARC, incline: 90 * DEGREE }, phases(-140, -40, 9)), 3, numbers);
      const [fit, circle] = [
        fitted(points, 90 * DEGREE),
        fitCircle(points.map(({ along, up }) => ({ x: along, y: up }))),
      ];
      // Both stop where steps of 1e-8 of the radius change nothing.
      within(fit.centre.along, circle?.centre.x ?? Number.NaN, 1e-4);
      within(fit.centre.up, circle?.centre.y ?? Number.NaN, 1e-4);
      within(fit.radius, circle?.radius ?? Number.NaN, 1e-4);
      within(fit.residual, circle?.residual ?? Number.NaN, 1e-9);
    }
  });

  it('has no smaller sum of squared distances in the picture beside it', () => {
    const points = shaken(on(ARC, phases(-150, -60, 8)), 4, seeded(SEED));
    const fit = fitted(points);
    const sum = (along: number, up: number, radius: number) => {
      const centre = { along: fit.centre.along + along, up: fit.centre.up + up };
      const arc = { centre, radius: fit.radius + radius, incline: ARC.incline };
      return points.reduce((total, point) => total + nearestOnArc(arc, point).distance ** 2, 0);
    };
    within(sum(0, 0, 0), 8 * fit.residual ** 2, 1e-8);
    for (const by of [-0.05, 0.05]) {
      expect(sum(by, 0, 0)).toBeGreaterThan(sum(0, 0, 0));
      expect(sum(0, by, 0)).toBeGreaterThan(sum(0, 0, 0));
      expect(sum(0, 0, by)).toBeGreaterThan(sum(0, 0, 0));
    }
  });

  it('moves by d with its points, and its low point with it: common practice', () => {
    const points = shaken(on(ARC, phases(-150, -60, 8)), 3, seeded(SEED));
    const one = fitted(points);
    for (const [along, up] of [
      [-38.5, 0],
      [0, 12],
      [512, -256],
    ] as const) {
      const moved = fitted(points.map((point) => ({ along: point.along + along, up: point.up + up })));
      // Steps end below 1e-8 of the radius; nothing else differs.
      within(moved.centre.along - one.centre.along, along, 1e-5);
      within(moved.low.along - one.low.along, along, 1e-5);
      within(moved.low.up - one.low.up, up, 1e-5);
      within(moved.radius, one.radius, 1e-5);
      // Without a fit between them it holds to the last digit but rounding.
      const shifted = { ...one, centre: { along: one.centre.along + along, up: one.centre.up + up } };
      within(lowPointOf(shifted).along - lowPointOf(one).along, along, 1e-12);
      within(lowPointOf(shifted).up - lowPointOf(one).up, up, 1e-12);
    }
  });

  it('strikes deeper by sin(incline) times what its radius grows, centre unmoved: common practice', () => {
    const [one, longer] = [
      fitted(on(ARC, phases(-150, -60, 8))),
      fitted(on({ ...ARC, radius: 360 }, phases(-150, -60, 8))),
    ];
    within(longer.low.up - one.low.up, -10 * Math.sin(ARC.incline), 1e-6);
    within(longer.low.along, one.low.along, 1e-6);
  });

  it('is mirrored with its points, and grows with them', () => {
    const points = shaken(on(ARC, phases(-150, -60, 8)), 3, seeded(SEED));
    const [one, other] = [fitted(points), fitted(points.map(({ along, up }) => ({ along: -2 * along, up: 2 * up })))];
    within(other.centre.along, -2 * one.centre.along, 1e-4);
    within(other.radius, 2 * one.radius, 1e-4);
    within(other.residual, 2 * one.residual, 1e-7);
    within(other.to - other.from, one.to - one.from, 1e-6);
    // Its covariance for 1 px shrinks with nothing: the unit is still a pixel, but the arc is twice as large.
    within(entry(other.covariance, 2, 2), entry(one.covariance, 2, 2), 1e-4 * entry(one.covariance, 2, 2));
  });

  it('scatters as its covariance says, low point and radius', () => {
    const numbers = seeded(SEED);
    const truth = on(ARC, phases(-150, -70, 10));
    const exact = fitted(truth);
    const [times, placing] = [1500, 1];
    const fits = Array.from({ length: times }, () => fitted(shaken(truth, placing, numbers)));
    const scatter = (of: (fit: ArcFit) => number, wanted: number) =>
      Math.sqrt(fits.reduce((sum, fit) => sum + (of(fit) - wanted) ** 2, 0) / times);
    const told = (matrix: ArcFit['covariance'], i: number) => placing * Math.sqrt(entry(matrix, i, i));
    // 1,500 times tell a standard deviation to 1.8 %: three of these, and 1 % for what is not first order.
    const close = 0.065;
    within(scatter(({ radius }) => radius, 350) / told(exact.covariance, 2), 1, close);
    within(scatter(({ centre }) => centre.up, -420) / told(exact.covariance, 1), 1, close);
    within(scatter(({ low }) => low.along, 900) / told(exact.lowCovariance, 0), 1, close);
    within(scatter(({ low }) => low.up, exact.low.up) / told(exact.lowCovariance, 1), 1, close);
    const mixed = fits.reduce((sum, { low }) => sum + (low.along - 900) * (low.up - exact.low.up), 0) / times;
    const size = told(exact.lowCovariance, 0) * told(exact.lowCovariance, 1);
    within(mixed / size, entry(exact.lowCovariance, 0, 1) / size, 0.08, `seed ${String(SEED)}`);
  });

  it('changes with its incline as refitting gives', () => {
    const points = shaken(on(ARC, phases(-150, -70, 8)), 2, seeded(SEED));
    const { perIncline } = fitted(points);
    const [less, more] = [fitted(points, ARC.incline - 0.01), fitted(points, ARC.incline + 0.01)];
    const slope = (of: (fit: ArcFit) => number) => (of(more) - of(less)) / 0.02;
    // Over 0.01 rad the slope itself changes by less than a thousandth.
    const close = (value: number) => 2e-3 * Math.abs(value) + 0.05;
    within(
      perIncline.radius,
      slope(({ radius }) => radius),
      close(perIncline.radius),
    );
    within(
      perIncline.centre.up,
      slope(({ centre }) => centre.up),
      close(perIncline.centre.up),
    );
    within(
      perIncline.low.along,
      slope(({ low }) => low.along),
      close(perIncline.low.along),
    );
    within(
      perIncline.low.up,
      slope(({ low }) => low.up),
      close(perIncline.low.up),
    );
    // Upright, an incline that is a little off changes nothing to first order.
    within(fitted(points, Math.PI / 2).perIncline.radius, 0, 1e-9);
  });

  it('knows what it covers, across the cut of the angles too', () => {
    const fit = fitted(on(ARC, phases(-230, -80, 9)));
    within(fit.to - fit.from, 150 * DEGREE, 1e-8);
    within(fit.from, 130 * DEGREE, 1e-8);
    within(fitted(on(ARC, phases(-300, 0, 11))).to - fitted(on(ARC, phases(-300, 0, 11))).from, 300 * DEGREE, 1e-8);
    within(fitted(on(ARC, phases(-180, -100, 9))).beyond, 10 * DEGREE, 1e-8);
  });
});

describe('points do not tell an arc', () => {
  it('when there are fewer than six different ones', () => {
    const five = on(ARC, phases(-150, -60, 5));
    expect(reasonOf([])).toBe('too-few-points');
    expect(reasonOf(five)).toBe('too-few-points');
    expect(reasonOf([...five, ...five])).toBe('too-few-points');
    expect(reasonOf(on(ARC, phases(-150, -60, 6)))).toBe('fitted');
  });

  it('when they lie on a line', () => {
    expect(reasonOf([0, 1, 2, 3, 4, 5, 6].map((i) => ({ along: 30 * i, up: 5 * i })))).toBe('no-arc');
  });

  it('when one of them is no place', () => {
    expect(reasonOf([...on(ARC, phases(-150, -60, 8)), { along: Number.NaN, up: 0 }])).toBe('no-arc');
  });

  it('when they cover less than 60 degrees', () => {
    expect(reasonOf(on(ARC, phases(-119.5, -60, 8)))).toBe('too-short-arc');
    expect(reasonOf(on(ARC, phases(-120.5, -60, 8)))).toBe('fitted');
  });

  it('when the arc opens downwards', () => {
    expect(reasonOf(on(ARC, phases(40, 140, 8)))).toBe('opens-down');
    expect(reasonOf(on(ARC, phases(-20, 100, 8)))).toBe('opens-down');
  });

  it('when the low point lies farther past the last than the limit, on either side', () => {
    const limit = FARTHEST_LOW / DEGREE;
    expect(reasonOf(on(ARC, phases(-190, -90 - limit - 0.5, 9)))).toBe('low-point-too-far');
    expect(reasonOf(on(ARC, phases(-190, -90 - limit + 0.5, 9)))).toBe('fitted');
    expect(reasonOf(on(ARC, phases(-90 + limit + 0.5, 10, 9)))).toBe('low-point-too-far');
    expect(reasonOf(on(ARC, phases(-90 + limit - 0.5, 10, 9)))).toBe('fitted');
  });

  it('and an incline that no plane has is refused loudly', () => {
    for (const incline of [0, -0.5, 1.6, Number.NaN]) {
      expect(() => fitArc([], incline)).toThrow('incline');
      expect(() => fitFreeArc([], incline)).toThrow('incline');
    }
    expect(fitFreeArc([], 1)).toBeNull();
  });
});
