import { describe, expect, it } from 'vitest';
import {
  chanceOf,
  isOnTrial,
  judged,
  verdictOnTrial,
  verdictsScreened,
  withFalseDiscoveryRate,
} from '../../../core/compare/verdicts.ts';
import { coverageFactor } from '../../../core/measure/uncertainty/freedom.ts';
import { smallestShown } from '../../../core/measure/uncertainty/levels.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { compareSwings } from '../../../core/compare/compare-swings.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { within } from '../../support/within.ts';
import { inventedSwing, movedSwing } from '../measure/invented-swing.ts';

const given = (difference: number, u: number, tolerance: number | null = null) => ({
  ...{ difference, u, coverage: 1.96, tolerance },
});

describe('the verdict on a reading that was on trial', () => {
  it.each([
    [2, 1, null, 'changed'],
    [1.96, 1, null, "can't tell"],
    [-2, 1, null, 'changed'],
    [0, 1, 5, 'no change'],
    [-1.5, 1, 5, 'no change'],
    // Two one-sided tests: 1.645 u, not 1.96 u, must fit in.
    [0, 1, 1.65, 'no change'],
    [0, 1, 1.64, "can't tell"],
    [0, 1, null, "can't tell"],
    // Surely different, however small against the tolerance.
    [2, 0.5, 5, 'changed'],
    [0, 0, 5, 'no change'],
  ] as const)('on %d with u %d and tolerance %s is %s', (difference, u, tolerance, verdict) => {
    expect(verdictOnTrial(given(difference, u, tolerance))).toBe(verdict);
  });

  it('takes a difference at the tolerance for none in no more than 5 of 100', () => {
    const numbers = seeded(42);
    const said = Array.from({ length: 20_000 }, () => verdictOnTrial(given(3 + numbers.normal(), 1, 3)));
    const none = said.filter((verdict) => verdict === 'no change').length / said.length;
    within(none, 0.05, 4 * Math.sqrt((0.05 * 0.95) / said.length));
  });
});

describe('what is screened', () => {
  it('is found as in the example of Y. Benjamini & Y. Hochberg (1995), section 3.2 (its 15 values from memory)', () => {
    const chances = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
    ];
    expect(withFalseDiscoveryRate(chances, 0.05).filter(Boolean)).toHaveLength(4);
    // In whatever order they come.
    const found = withFalseDiscoveryRate(chances.toReversed(), 0.05);
    expect(found.slice(-4)).toEqual([true, true, true, true]);
  });

  it('names something in no more than 5 of 100 comparisons where nothing changed', () => {
    const numbers = seeded(7);
    const trials = 3000;
    let named = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      const all = Array.from({ length: 100 }, () => given(numbers.normal(), 1));
      if (verdictsScreened(all).includes('worth a look')) named += 1;
    }
    within(named / trials, 0.05, 4 * Math.sqrt((0.05 * 0.95) / trials));
  });

  it('does so where each u is known from few swings: far out such differences lie much oftener', () => {
    const numbers = seeded(8);
    const [trials, freedom] = [1000, 12];
    let named = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      const all = Array.from({ length: 60 }, () => {
        const squares = Array.from({ length: freedom }, () => numbers.normal() ** 2).reduce(
          (sum, each) => sum + each,
          0,
        );
        return { ...given(numbers.normal(), Math.sqrt(squares / freedom)), coverage: coverageFactor(freedom) };
      });
      if (verdictsScreened(all).includes('worth a look')) named += 1;
    }
    within(named / trials, 0.05, 4 * Math.sqrt((0.05 * 0.95) / trials));
  });

  it('counts a single one as it would by itself, and none at all as nothing', () => {
    expect(verdictsScreened([given(1.97, 1)])).toEqual(['worth a look']);
    expect(verdictsScreened([given(1.95, 1)])).toEqual(["can't tell"]);
    expect(verdictsScreened([])).toEqual([]);
  });
});

it('chances are those of printed tables: 1.96 and 2.576 u either side leave 5 and 1 of 100', () => {
  within(chanceOf(given(1.959964, 1)), 0.05, 1e-5);
  within(chanceOf(given(-2.575829, 1)), 0.01, 1e-5);
  expect(chanceOf(given(0, 0))).toBe(1);
  expect(chanceOf(given(1, 0))).toBe(0);
});

it('the smallest change that shows is seen 4 times of 5', () => {
  const numbers = seeded(11);
  const change = smallestShown(1, 1.96);
  const trials = 20_000;
  let seen = 0;
  for (let trial = 0; trial < trials; trial += 1)
    if (verdictOnTrial(given(change + numbers.normal(), 1)) === 'changed') seen += 1;
  within(seen / trials, 0.8, 4 * Math.sqrt((0.8 * 0.2) / trials));
});

describe('on trial', () => {
  const pin = { id: 'back-incline', aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;

  it('is what was chosen for the stills and what a chain names, nothing else', () => {
    expect(isOnTrial(pin, [], SHIPPED_GOALS)).toBe(false);
    expect(isOnTrial(pin, [pin], SHIPPED_GOALS)).toBe(true);
    const [link] = SHIPPED_GOALS.chains[0]?.links ?? [];
    if (link === undefined) throw new Error('the shipped goals have no chain');
    expect(isOnTrial({ ...link, id: link.reading }, [], SHIPPED_GOALS)).toBe(true);
  });

  it('never is called worth a look, and what is screened never changed', () => {
    const [then, now] = [inventedSwing(), movedSwing(inventedSwing(), ({ x, y }) => ({ x: x + 0.2 * y, y }))];
    const { comparisons } = compareSwings(then, { ...now, pins: [pin] }, SHIPPED_GOALS);
    const words = (isTried: boolean) =>
      new Set(comparisons.filter((each) => each.isOnTrial === isTried).map(({ verdict }) => verdict));
    expect(words(true)).not.toContain('worth a look');
    expect(words(false)).not.toContain('changed');
    expect(words(false)).toContain('worth a look');
    expect(judged([])).toEqual([]);
  });
});
