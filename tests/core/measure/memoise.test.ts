import { expect, test } from 'vitest';
import { remembered } from '../../../core/measure/memoise.ts';

test('what was asked last about a thing is not worked out again; another question about it, or another thing, is', () => {
  const asked: unknown[] = [];
  const sum = remembered((of: { readonly n: number }, ...more: readonly number[]) => {
    asked.push([of.n, ...more]);
    return more.reduce((total, each) => total + each, of.n);
  });
  const [one, two] = [{ n: 1 }, { n: 1 }];
  expect([sum(one, 2, 3), sum(one, 2, 3), sum(two, 2, 3), sum(one, 2), sum(one, 2, 3)]).toEqual([6, 6, 6, 3, 6]);
  expect(asked).toEqual([
    [1, 2, 3],
    [1, 2, 3],
    [1, 2],
    [1, 2, 3],
  ]);
});

test('an answer of null or NaN is an answer too', () => {
  let count = 0;
  const nothing = remembered<object, readonly [number], null>(() => {
    count += 1;
    return null;
  });
  const of = {};
  expect([nothing(of, Number.NaN), nothing(of, Number.NaN)]).toEqual([null, null]);
  expect(count).toBe(1);
});
