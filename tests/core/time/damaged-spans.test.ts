import { expect, test } from 'vitest';
import { damagedCount, isDamaged, spansOf } from '../../../core/time/damaged-spans.ts';
import { seeded } from '../../support/seeded.ts';

test('spans hold exactly the places that are damaged, in order, and never touch', () => {
  const random = seeded(41);
  for (let trial = 0; trial < 200; trial += 1) {
    const damaged = Array.from({ length: Math.floor(random() * 30) }, () => random() < 0.4);
    const damage = spansOf(damaged);
    expect(damaged.map((_, place) => isDamaged({ damage }, place))).toEqual(damaged);
    expect(damagedCount({ damage })).toBe(damaged.filter(Boolean).length);
    damage.forEach(({ from, to }, place) => {
      expect(from).toBeLessThanOrEqual(to);
      expect(from - 1).toBeGreaterThan(damage[place - 1]?.to ?? -2);
    });
  }
});

test('frames that are not there are not damaged', () => {
  const damage = spansOf([true, false, true]);
  expect([-1, 3, Number.NaN].map((frame) => isDamaged({ damage }, frame))).toEqual([false, false, false]);
  expect(spansOf([])).toEqual([]);
});
