import { describe, expect, it } from 'vitest';
import {
  formatBudget,
  formatNumber,
  formatPlain,
  formatReading,
  formatShapeNumbers,
  labelOf,
  meaningOf,
  missingWords,
} from '../../../../core/measure/words/format.ts';
import { figuresOf } from '../../../../core/measure/words/figures.ts';
import { CATALOGUE } from '../../../../core/measure/catalogue/catalogue.ts';
import { MISSING_REASONS, READING_IDS, UNCERTAINTY_SOURCES } from '../../../../core/model/reading.ts';
import type { Comparison, MeasuredReading } from '../../../../core/model/reading.ts';
import type { ShapeNumber } from '../../../../core/measure/readings/shape-number.ts';

function reading(value: number, u: number, more: Partial<MeasuredReading> = {}): MeasuredReading {
  return {
    id: 'back-incline',
    aspect: 'value',
    view: 'down-the-line',
    checkpoint: 'address',
    state: 'measured',
    value,
    unit: 'deg',
    u,
    interval: [value - 1.96 * u, value + 1.96 * u],
    coverage: 1.96,
    budget: [{ source: 'placing', u }],
    shared: [],
    method: 'first-order',
    from: [],
    shapes: [],
    notes: [],
    ...more,
  };
}

describe('figures of a reading follow its ±', () => {
  it.each([
    [34.2345, 0.7, {}, '34.2° ± 1.4°'],
    [34.2345, 1.5, {}, '34.2° ± 2.9°'],
    [34.2345, 1.51, {}, '34° ± 3°'],
    [34.2345, 5, {}, '34° ± 10°'],
    [34.2345, 50, {}, '34° ± 98°'],
    [34.2345, 0.16, {}, '34.2° ± 0.3°'],
    [-3.449, 0.6, { unit: 'cm' }, '−3.4 ± 1.2 cm'],
    [12.3, 1.6, { unit: '% head box' }, '12 ± 3 % of head box'],
    [-0.02, 1.6, { unit: '% shoulder width' }, '0 ± 3 % of shoulder width'],
    [3.0216, 0.02453, { id: 'tempo', unit: 'ratio' }, '3.02 ± 0.05'],
    [0.2512, 0.0017, { id: 'downswing', unit: 's' }, '0.251 ± 0.003 s'],
    [2.01, 0.0136, { id: 'downswing', unit: 's on screen' }, '2.010 ± 0.027 s on screen'],
    [17.6, 4.2, { unit: 'px' }, '18 ± 8 px'],
    [5, 0, {}, '5.0° ± 0°'],
    [10.2, 1.2, { aspect: 'change' }, '+10.2° ± 2.4°'],
    [-10.2, 1.2, { aspect: 'change' }, '−10.2° ± 2.4°'],
    [0.04, 1.2, { aspect: 'change' }, '0.0° ± 2.4°'],
  ] as const)('%d with u %d', (value, u, more, text) => {
    expect(formatReading(reading(value, u, more)).text).toBe(text);
  });

  it('come apart into value and ±', () => {
    expect(formatReading(reading(-3.449, 0.6, { unit: 'cm' }))).toEqual({
      value: '−3.4',
      plusMinus: '1.2',
      text: '−3.4 ± 1.2 cm',
    });
  });

  it('of a difference carry their sign', () => {
    const [then, now] = [reading(30, 0.7), reading(34.5, 0.7)];
    const comparison: Comparison = {
      id: 'back-incline',
      aspect: 'value',
      view: 'down-the-line',
      checkpoint: 'address',
      then,
      now,
      difference: 4.5,
      unit: 'deg',
      u: 1,
      coverage: 1.96,
      isOnTrial: true,
      verdict: 'changed',
      tolerance: 5,
      shows: 2.8,
      showsWithThree: null,
    };
    const written = (one: Comparison) => figuresOf([], [one]).comparison(one).difference.text;
    expect(written(comparison)).toBe('+4.5° ± 2.0°');
    expect(written({ ...comparison, then: now, now: then, difference: -4.5 })).toBe('−4.5° ± 2.0°');
  });

  it('of a shape are those of its numbers, a given length without ±', () => {
    const number = {
      id: 'length',
      state: 'measured',
      unit: 'cm',
      method: 'first-order',
      coverage: 1.96,
      notes: [],
    } as const;
    const texts = (...numbers: readonly ShapeNumber[]) => formatShapeNumbers(numbers).map((each) => each?.text ?? null);
    expect(texts({ ...number, value: 50.04, u: 0.6, interval: [49, 51] })).toEqual(['50.0 ± 1.2 cm']);
    expect(texts({ ...number, value: 100, u: 0, interval: [100, 100] })).toEqual(['100.0 cm']);
    expect(texts({ id: 'incline', state: 'missing', reason: 'same-place' })).toEqual([null]);
  });
});

describe('words beside a reading', () => {
  const square = { id: 'shoulder-to-spine', checkpoint: 'top' } as const;
  const box = { id: 'head-box', view: 'face-on', checkpoint: 'top', unit: 'cm' } as const;

  it.each([
    [94, 1, square, '4.0° flatter than square'],
    [84, 2, square, '6° steeper than square'],
    [91, 2, square, 'square to the spine within its ±'],
    [2.1, 0.6, box, 'outside the box by 2.1 cm'],
    [-2.1, 0.6, box, 'inside the box by 2.1 cm'],
    [0.5, 0.6, box, "at the edge of the box: can't tell inside from outside"],
    [34, 1, {}, 'toward the ball'],
    [-34, 1, {}, 'away from the ball'],
    [1, 1, {}, null],
    [146, 2, { id: 'lead-knee' }, null],
    [10, 2, { id: 'hip-line', aspect: 'change' }, null],
  ] as const)('%d with u %d', (value, u, more, words) => {
    expect(meaningOf(reading(value, u, more))).toBe(words);
  });

  it('every reading has a label, a formula, a view and a checkpoint', () => {
    for (const id of READING_IDS) {
      const { label, formula, views, checkpoints } = CATALOGUE[id];
      expect(label).toMatch(/^[A-Z][a-z]/);
      expect(formula).toMatch(/\.$/);
      expect(views.length * checkpoints.length).toBeGreaterThan(0);
    }
    expect(labelOf({ id: 'trail-knee', aspect: 'change' })).toBe('Trail knee, change from address');
    expect(new Set(READING_IDS.map((id) => CATALOGUE[id].label)).size).toBe(READING_IDS.length);
  });

  it('every reason has a sentence that says what to do', () => {
    for (const reason of MISSING_REASONS) {
      const needs = { points: [{ point: 'ball', checkpoint: 'top' }], checkpoints: ['top'], headBox: false } as const;
      const words = missingWords({
        id: 'tempo',
        aspect: 'value',
        view: 'face-on',
        checkpoint: 'impact',
        state: 'missing',
        reason,
        needs,
      });
      expect(words).toMatch(/^[A-Z].*\.$/);
    }
  });
});

describe('what a ± is made of, in figures', () => {
  it('has each part by the coverage of the reading, in the order and the unit of the reading', () => {
    const budget = [
      { source: 'placing', u: 0.6 },
      { source: 'depth', u: 0.4 },
      { source: 'scale', u: 0.012 },
    ] as const;
    const parts = formatBudget(reading(12, 0.72, { unit: 'cm', budget }));
    expect(parts.map(({ words, text }) => `${words} ${text}`)).toEqual([
      'click error ± 1.2 cm',
      'depth ± 0.8 cm',
      'known length ± 0.024 cm',
    ]);
    expect(parts.map(({ share }) => share)).toEqual([1, 0.4 / 0.6, 0.012 / 0.6]);
    const wider = formatBudget(reading(12, 0.72, { unit: 'cm', budget, coverage: 4 }));
    expect(wider.map(({ text }) => text)).toEqual(['± 2.4 cm', '± 1.6 cm', '± 0.05 cm']);
  });

  it('says degrees as degrees, and ratios bare', () => {
    expect(formatBudget(reading(34, 0.7)).map(({ text }) => text)).toEqual(['± 1.4°']);
    const ratio = reading(3, 0.0245, { unit: 'ratio', budget: [{ source: 'time', u: 0.0245 }] });
    expect(formatBudget(ratio).map(({ words, text }) => `${words} ${text}`)).toEqual(['time of frames ± 0.05']);
  });

  it('is empty where nothing is uncertain, and has words for every source', () => {
    expect(formatBudget(reading(34, 0, { budget: [] }))).toEqual([]);
    const all = reading(1, 1, { budget: UNCERTAINTY_SOURCES.map((source) => ({ source, u: 1 })) });
    const words = formatBudget(all).map((part) => part.words);
    expect(new Set(words).size).toBe(UNCERTAINTY_SOURCES.length);
  });
});

describe('numbers that are no readings', () => {
  it.each([
    [0.9512, 0.02, 'm', '0.95 ± 0.04 m'],
    [6.04, 0.5, 'deg', '6.0° ± 1.0°'],
    [-0.02, 0.5, 'deg', '0.0° ± 1.0°'],
    [0.3512, 0.0021, 'cm a pixel', '0.351 ± 0.004 cm a pixel'],
    [12.4, 3, 'px', '12 ± 6 px'],
  ] as const)('%d with u %d in %s', (value, u, unit, text) => {
    expect(formatNumber(value, u, unit).text).toBe(text);
  });

  it('without ± have the decimals that are asked for', () => {
    expect(formatPlain(39.7712, 'deg', 1)).toBe('39.8°');
    expect(formatPlain(-0.04, 'px', 1)).toBe('0.0 px');
  });
});
