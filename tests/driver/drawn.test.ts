import { expect, test } from 'vitest';
import { drawn } from '../support/drawn.ts';

const CHECKS = ['a', 'b', 'c', 'd', 'e'];
/** As many as `npm run test:long` takes, where all are taken. */
const isLong = drawn(CHECKS).length > 1;

test('neighbours draw neighbours: of as many things as there are checks, each check is drawn for one', () => {
  const all = CHECKS.map((_, place) => drawn(CHECKS, place));
  if (isLong) expect(all).toEqual(CHECKS.map(() => CHECKS));
  else expect(all.flat().toSorted()).toEqual(CHECKS);
});

test('the same is drawn every time, as many as are asked for, none twice', () => {
  for (const count of [1, 2, 5, 9]) {
    const some = drawn(CHECKS, 3, count);
    expect(some).toEqual(drawn(CHECKS, 3, count));
    expect(new Set(some).size).toBe(some.length);
    expect(some).toHaveLength(isLong ? CHECKS.length : Math.min(count, CHECKS.length));
  }
});
