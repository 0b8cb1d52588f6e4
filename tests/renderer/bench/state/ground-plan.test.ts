import { expect, test } from 'vitest';
import { typedLength } from '../../../../core/measure/words/format.ts';
import { readLength } from '../../../../core/measure/words/typed-length.ts';
import { measuredPlan, planOf, typedSize } from '../../../../renderer/bench/state/ground-plan.ts';

const ROWS = [
  { target: '0', ball: '0' },
  { target: '50', ball: '' },
  { target: '50', ball: '40,5' },
  { target: '−50', ball: '40' },
];

test('lengths are read in cm, with a point or a comma, and a minus of either kind', () => {
  expect(readLength('150')).toBe(1500);
  expect(readLength(' 48,2 ')).toBe(482);
  expect(readLength('-3.5')).toBe(-35);
  expect(readLength('−3.5')).toBe(-35);
  for (const none of ['', '  ', 'a', '1 2', '1e999', 'NaN']) expect(readLength(none)).toBeNull();
});

test('a size needs both lengths, above 0', () => {
  expect(typedSize({ along: '150', across: '120' })).toEqual({ along: 1500, across: 1200 });
  for (const across of ['', '0', '-4', 'wide']) expect(typedSize({ along: '150', across })).toBeNull();
});

test('measured places need both numbers each, and four of them; empty rows are left out', () => {
  const whole = ROWS.map((row) => ({ ...row, ball: row.ball === '' ? '10' : row.ball }));
  const empty = { target: '', ball: '' };
  expect(measuredPlan([...whole.slice(0, 2), empty, ...whole.slice(2)])).toEqual({
    layout: 'measured',
    places: [
      { target: 0, ball: 0 },
      { target: 500, ball: 100 },
      { target: 500, ball: 405 },
      { target: -500, ball: 400 },
    ],
  });
  expect(measuredPlan(ROWS)).toBeNull();
  expect(measuredPlan(whole.slice(1))).toBeNull();
});

test('the chosen layout takes its own sizes', () => {
  const typed = { mat: { along: '150', across: '120' }, sticks: { along: '', across: '' }, measured: [] };
  expect(planOf({ ...typed, layout: 'mat' })?.places).toHaveLength(4);
  expect(planOf({ ...typed, layout: 'sticks' })).toBeNull();
});

test('a length is written as it would be typed, and typed again it is the same', () => {
  for (const [mm, text] of [
    [1500, '150'],
    [482, '48.2'],
    [1000.5, '100.05'],
    [-35, '-3.5'],
    [0, '0'],
  ] as const) {
    expect(typedLength(mm)).toBe(text);
    expect(readLength(text)).toBe(mm);
  }
});
