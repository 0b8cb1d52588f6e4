import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../../core/measure/uncertainty/freedom.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { PlacingErrors } from '../../../core/measure/uncertainty/placing.ts';
import type { MeasuredReading, ReadingId } from '../../../core/model/reading.ts';
import { within } from '../../support/within.ts';
import { ALL_SHAPES, inventedSwing } from './invented-swing.ts';
import { STEADY } from '../../support/steady.ts';

const SWING = inventedSwing({ ...ALL_SHAPES, plumb: false });

function reading(id: ReadingId, placing: PlacingErrors): MeasuredReading {
  const found = readSwing(SWING, { ...STEADY, ...placing }).find(
    (each) =>
      each.id === id && each.checkpoint === 'address' && each.aspect === 'value' && each.view === 'down-the-line',
  );
  if (found?.state !== 'measured') throw new Error(`${id} is ${found?.reason ?? 'not there'}`);
  return found;
}

describe("the coach's own placing errors", () => {
  it('take the place of the assumed one, point by point, and its remark away', () => {
    const [assumed, own] = [
      reading('back-incline', { known: {}, assumed: 3 }),
      reading('back-incline', { known: { tailbone: 1.5, 'neck-base': 1.5 }, assumed: 3 }),
    ];
    // Central differences over a hundredth of u: 1e-6 of the slope.
    within(own.u, assumed.u / 2, 1e-6);
    expect(assumed.notes).toContain('placing-assumed');
    expect(own.notes).not.toContain('placing-assumed');
    expect(reading('back-incline', { known: { tailbone: 1.5 }, assumed: 3 }).notes).toContain('placing-assumed');
  });

  it("from few repeats widen the ± by Student's t: both points with 6 degrees, equally long arms, give 12", () => {
    const known = { tailbone: 2, 'neck-base': 2 };
    const own = reading('back-incline', { known, freedom: { tailbone: 6, 'neck-base': 6 }, assumed: 3 });
    // Welch-Satterthwaite: two equal components of 6 degrees each have 12 together.
    within(own.coverage, coverageFactor(12), 1e-6);
    within(own.interval[1] - own.value, own.coverage * own.u, 1e-9);
    within(reading('back-incline', { known, assumed: 3 }).coverage, 1.96, 1e-12);
  });

  it('of one point alone widen less where another point is assumed', () => {
    const mixed = reading('back-incline', { known: { tailbone: 3 }, freedom: { tailbone: 6 }, assumed: 3 });
    // Half of the variance with 6 degrees: 6 / (1/2)^2 = 24.
    within(mixed.coverage, coverageFactor(24), 1e-6);
  });
});
