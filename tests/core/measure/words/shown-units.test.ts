import { afterEach, describe, expect, it, test } from 'vitest';
import {
  formatNumber,
  formatSize,
  formatTyped,
  formatWanted,
  typedIn,
  typedLength,
  unitInWords,
} from '../../../../core/measure/words/format.ts';
import { figuresOf } from '../../../../core/measure/words/figures.ts';
import {
  CM_PER_INCH,
  M_PER_SECOND_PER_MPH,
  M_PER_YARD,
  fromShown,
  showUnits,
  shownUnit,
  toShown,
} from '../../../../core/measure/words/shown-units.ts';
import { readLength, readTyped } from '../../../../core/measure/words/typed-length.ts';
import { UNITS } from '../../../../core/model/reading.ts';
import type { MeasuredReading } from '../../../../core/model/reading.ts';
import { compareSwings } from '../../../../core/compare/compare-swings.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { reportOf } from '../../../../core/report/lesson-report.ts';
import { within } from '../../../support/within.ts';
import { ALL_SHAPES, inventedSwing } from '../invented-swing.ts';

afterEach(() => showUnits('metric'));

/** Rounding of a double; nothing else lies between the two ways. */
const EXACT = 1e-12;

describe('inches, yards and miles an hour', () => {
  it('are the international ones, exact since the agreement of 1959', () => {
    expect([CM_PER_INCH, M_PER_YARD]).toEqual([2.54, 0.9144]);
    within(M_PER_YARD, (36 * CM_PER_INCH) / 100, EXACT);
    within(M_PER_SECOND_PER_MPH, (1760 * M_PER_YARD) / 3600, EXACT);
  });

  it('are shown for cm, m and m/s only, and only where they were chosen', () => {
    for (const unit of UNITS) expect([toShown(7, unit), shownUnit(unit)]).toEqual([7, unit]);
    showUnits('imperial');
    expect([toShown(2.54, 'cm'), toShown(0.9144, 'm'), toShown(0.44704, 'm/s')]).toEqual([1, 1, 1]);
    expect([shownUnit('cm'), shownUnit('m'), shownUnit('m/s')]).toEqual(['in', 'yd', 'mph']);
    for (const unit of UNITS.filter((each) => each !== 'cm' && each !== 'm/s'))
      expect([toShown(7, unit), shownUnit(unit)]).toEqual([7, unit]);
  });

  it('go there and back', () => {
    showUnits('imperial');
    for (const unit of UNITS) within(fromShown(toShown(12.3, unit), unit), 12.3, EXACT * 10);
  });

  it('are written with the figures that their own ± leaves', () => {
    // 1.02 m = 1.1155 yd; ± 1.96 × 0.02 m = 0.0429 yd.
    expect(formatNumber(1.02, 0.02, 'm', 1.96).text).toBe('1.02 ± 0.04 m');
    showUnits('imperial');
    expect(formatNumber(1.02, 0.02, 'm', 1.96).text).toBe('1.12 ± 0.04 yd');
    expect(formatSize(5.08, 'cm')).toBe('2.0 in');
    expect(formatWanted({ from: null, to: 5.08, unit: 'cm' })).toBe('2 in or less');
    expect(formatTyped(44.704, 'm/s')).toBe('100 mph');
    expect(unitInWords('cm')).toBe('in');
    expect(formatTyped(90, 'deg')).toBe('90°');
  });
});

describe('a length as it is typed', () => {
  it.each([
    ['46 in', 1168.4],
    ['46"', 1168.4],
    ['46 inches', 1168.4],
    ['3 ft 10 in', 1168.4],
    ['3\' 10"', 1168.4],
    ['3ft10in', 1168.4],
    ['3.5 ft', 1066.8],
    ['1 yd', 914.4],
    ['117 cm', 1170],
    ['1.17 m', 1170],
    ['1,17m', 1170],
    ['1170 mm', 1170],
    ['-2 in', -50.8],
    ['−2 in.', -50.8],
  ])('%s is %d mm in either setting', (text, mm) => {
    within(readLength(text) ?? NaN, mm, 1e-9);
    showUnits('imperial');
    within(readLength(text) ?? NaN, mm, 1e-9);
  });

  it('without a unit is in the one that is shown', () => {
    expect(readLength('46')).toBe(460);
    showUnits('imperial');
    within(readLength('46') ?? NaN, 1168.4, 1e-9);
  });

  it.each(['', ' ', 'in', '46 stone', '4 6', '1.2.3', '--1', '1e2', 'NaN', '46 in 3', '3 ft 10 cm'])(
    '%j is none',
    (text) => {
      expect(readLength(text)).toBeNull();
    },
  );

  it('that is shown is read back to the same', () => {
    for (const system of ['metric', 'imperial'] as const) {
      showUnits(system);
      for (const mm of [1168.4, 940, 25.4, 42.67]) within(readLength(typedLength(mm)) ?? NaN, mm, 0.05);
    }
    showUnits('imperial');
    expect(typedLength(1168.4)).toBe('46');
  });
});

test('a limit is typed in the unit that is shown, or with its own', () => {
  expect([readTyped('2', 'cm'), readTyped('2 in', 'cm'), readTyped('25°', 'deg'), readTyped('40', 'm/s')]).toEqual([
    ...[2, 5.08, 25, 40],
  ]);
  within(readTyped('100 mph', 'm/s') ?? NaN, 44.704, 1e-9);
  for (const [text, unit] of [
    ...[
      ['2 stone', 'cm'],
      ['2 in', 'deg'],
      ['40 in', 'm/s'],
      ['x', 's'],
      ['9'.repeat(400), 'deg'],
    ],
  ] as const)
    expect(readTyped(text, unit)).toBeNull();
  showUnits('imperial');
  within(readTyped('2', 'cm') ?? NaN, 5.08, 1e-12);
  within(readTyped('100', 'm/s') ?? NaN, 44.704, 1e-9);
  expect(readTyped('25', 'deg')).toBe(25);
  expect(typedIn(5.08, 'cm')).toBe('2');
});

describe('a sheet in inches', () => {
  const then = inventedSwing(ALL_SHAPES);
  const [first, ...clips] = then.clips;
  if (first === undefined) throw new Error('the invented swing has no clip');
  const shifted = {
    ...then,
    date: '2026-06-12',
    clips: [first, ...clips].map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks, place) => ({
        ...marks,
        points: Object.fromEntries(
          Object.entries(marks.points).map(([name, at]) => [name, { ...at, x: at.x + (place % 3) * 9 }]),
        ),
      })),
    })),
  };
  const { comparisons } = compareSwings(then, shifted, SHIPPED_GOALS);
  const number = (text: string): number => Number(text.replace('−', '-').replace('+', ''));
  const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;

  it('says the same lengths, and its sums come out: now less then is the difference that is shown', () => {
    const read = reportOf({ now: shifted, then, goals: SHIPPED_GOALS }).now.filter(
      (reading): reading is MeasuredReading => reading.state === 'measured',
    );
    const lists = [comparisons.map((each) => each.then), read];
    const metric = figuresOf(lists, comparisons);
    const inCm = comparisons.filter(({ unit }) => unit === 'cm');
    const cm = inCm.map((each) => metric.comparison(each).now);
    expect(inCm.length).toBeGreaterThan(5);
    showUnits('imperial');
    const imperial = figuresOf(lists, comparisons);
    for (const [place, each] of inCm.entries()) {
      const shown = imperial.comparison(each);
      expect(shown.now.text).toMatch(/ in$/);
      const most = Math.max(decimals(shown.now.value), decimals(shown.then.value));
      within(number(shown.difference.value), number(shown.now.value) - number(shown.then.value), 0.5 * 10 ** -most);
      // What is rounded in each of the two, and the change from address that is a difference of two such.
      const inches = number(cm[place]?.value ?? '') / CM_PER_INCH;
      within(
        number(shown.now.value),
        inches,
        1.5 * (10 ** -decimals(shown.now.value) + 10 ** -decimals(cm[place]?.value ?? '') / CM_PER_INCH),
      );
    }
  });
});
