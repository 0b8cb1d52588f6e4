import { expect, it } from 'vitest';
import { timesRise, withoutEntries } from '../../../core/time/entries.ts';

const pictures = (list: readonly (readonly [pts: number | null, kind: string])[]) =>
  list.map(([pts, kind]) => ({ pts, duration: 0, key: kind.includes('k'), hidden: kind.includes('h') }));

it('times rise from group to group, whatever the order within one, open groups and hidden pictures too', () => {
  expect(timesRise([])).toBe(true);
  const closed = pictures([
    [0, 'k'],
    [30, ''],
    [10, ''],
    [20, ''],
    [40, 'k'],
    [60, ''],
    [50, ''],
  ]);
  expect(timesRise(closed)).toBe(true);
  const open = pictures([
    [0, 'k'],
    [10, ''],
    [40, 'k'],
    [20, ''],
    [30, ''],
    [70, 'k'],
    [50, ''],
    [60, ''],
  ]);
  expect(timesRise(open)).toBe(true);
  expect(
    timesRise(
      pictures([
        [90, 'h'],
        [0, 'k'],
        [null, ''],
        [10, 'k'],
      ]),
    ),
  ).toBe(true);
});

it('they do not where a group begins before what was coded earlier', () => {
  expect(
    timesRise(
      pictures([
        [0, 'k'],
        [30, ''],
        [20, 'k'],
      ]),
    ),
  ).toBe(false);
  expect(
    timesRise(
      pictures([
        [0, 'k'],
        [10, ''],
        [0, 'k'],
        [10, ''],
      ]),
    ),
  ).toBe(false);
});

it('frames without entries are the same frames', () => {
  const frames = [
    { pts: 0, ticks: 10, key: true },
    { pts: 10, ticks: 10, key: false },
  ];
  expect(withoutEntries(frames)).toEqual([{ pts: 0, ticks: 10, key: false }, frames[1]]);
});
