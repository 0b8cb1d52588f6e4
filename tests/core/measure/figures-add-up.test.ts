import { describe, expect, it } from 'vitest';
import { figuresOf } from '../../../core/measure/words/figures.ts';
import { formatShapeNumbers } from '../../../core/measure/words/format.ts';
import type { ShapeNumber } from '../../../core/measure/readings/shape-number.ts';
import { verdictOnTrial } from '../../../core/compare/verdicts.ts';
import type { Comparison, MeasuredReading, Unit } from '../../../core/model/reading.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { reportOf, type ReportSource } from '../../../core/report/lesson-report.ts';
import { stillPages } from '../../../core/report/stills.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { inventedSwing, movedSwing } from './invented-swing.ts';
import { seeded } from '../../support/seeded.ts';
import { STEADY } from '../../support/steady.ts';

function reading(value: number, half: number, more: Partial<MeasuredReading> = {}): MeasuredReading {
  const u = half / 1.96;
  return {
    ...{ id: 'lead-knee', aspect: 'value', view: 'face-on', checkpoint: 'top', state: 'measured', unit: 'deg' },
    ...{
      value,
      u,
      interval: [value - half, value + half],
      coverage: 1.96,
      budget: [],
      shared: [],
      method: 'first-order',
    },
    ...{ from: [], shapes: [], notes: [], ...more },
  };
}

function comparison(then: MeasuredReading, now: MeasuredReading, tolerance: number | null = null): Comparison {
  const { id, aspect, view, checkpoint, unit } = now;
  const difference = now.value - then.value;
  const u = Math.hypot(then.u, now.u);
  const verdict = verdictOnTrial({ difference, u, coverage: 1.96, tolerance });
  return {
    id,
    aspect,
    view,
    checkpoint,
    then,
    now,
    difference,
    unit,
    u,
    coverage: 1.96,
    isOnTrial: true,
    verdict,
    tolerance,
    shows: 2.8 * u,
    showsWithThree: null,
  };
}

/** As somebody with a pencil reads it: the number, its ±, and how many decimals both have. */
function readOff(text: string): {
  readonly value: number;
  readonly half: number;
  readonly decimals: readonly number[];
} {
  const match = /^([+−]?)(\d+(?:\.(\d+))?)°? ± (\d+(?:\.(\d+))?)/.exec(text);
  if (match === null) throw new Error(`cannot be read: ${text}`);
  const [, sign, number, places = '', half, halfPlaces = ''] = match;
  const decimals = half === '0' ? [places.length] : [places.length, halfPlaces.length];
  return { value: (sign === '−' ? -1 : 1) * Number(number), half: Number(half), decimals };
}

/** In units of the last digit, so that nothing is lost in the sum. */
function inLastDigits({ value, decimals }: ReturnType<typeof readOff>): number {
  return Math.round(value * 10 ** (decimals[0] ?? 0));
}

function texts(one: Comparison) {
  const { then, now, difference } = figuresOf([], [one]).comparison(one);
  return [then.text, now.text, difference.text];
}

describe('what is shown adds up', () => {
  it('in cases that once did not', () => {
    expect(texts(comparison(reading(105.4, 3), reading(90.6, 3)))).toEqual(['105° ± 3°', '91° ± 3°', '−14° ± 4°']);
    const cm = { id: 'head-shift', unit: 'cm' } as const;
    expect(texts(comparison(reading(2.4, 3, cm), reading(7.6, 3, cm)))).toEqual(['2 ± 3 cm', '8 ± 3 cm', '+6 ± 4 cm']);
  });

  it('in a difference of any two numbers, with one number of digits, and never against its verdict', () => {
    const random = seeded(20260512);
    const sizes = [0, 0.001, 0.05, 1, 10, 100, 5000, 1e6];
    const anyOf = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
    const contradictions: string[] = [];
    const runs = 4000;
    for (let run = 0; run < runs; run += 1) {
      const unit = anyOf<Unit>(['deg', 'cm', 'ratio', 's']);
      const scale = anyOf(sizes);
      const one = () => (random() - 0.5) * 2 * scale;
      const half = () => anyOf([0, 0.002, 0.07, 0.3, 2.96, 4, 11, 98, 3000]) * (0.5 + random());
      const [then, now] = [reading(one(), half(), { unit }), reading(one(), half(), { unit })];
      const compared = comparison(then, now, anyOf([null, 0.5, 5]));
      const [before, after, difference] = texts(compared).map(readOff);
      if (before === undefined || after === undefined || difference === undefined) throw new Error('three are written');
      expect(new Set([...before.decimals, ...after.decimals, ...difference.decimals]).size).toBe(1);
      expect(inLastDigits(after) - inLastDigits(before)).toBe(inLastDigits(difference));
      for (const [shown, true_] of [
        [before, then],
        [after, now],
      ] as const) {
        const step = 10 ** -(shown.decimals[0] ?? 0);
        expect(Math.abs(shown.value - true_.value)).toBeLessThanOrEqual(step / 2 + 1e-9 * Math.abs(true_.value));
        // A ± is never hidden, and shown wider rather than as nothing.
        expect(shown.half === 0).toBe(true_.u === 0);
      }
      const isMoved = Math.abs(difference.value) > difference.half;
      // What has no ± at all is not measured; nothing is decided by digits there.
      if (then.u > 0 && now.u > 0 && isMoved !== (compared.verdict === 'changed')) {
        contradictions.push(texts(compared).join(', '));
        expect(figuresOf([], [compared]).comparison(compared).close).toMatch(/ against ± /);
      }
    }
    // One digit more parts nearly all; of the rest it is said in words how near they are.
    expect(contradictions.length, contradictions.join('\n')).toBeLessThanOrEqual(2);
  });

  it('without digits far below a ±: where one verdict needs a digit, only its own numbers and those at address get it', () => {
    const knee = (value: number, checkpoint: Checkpoint) => reading(value, 4.5, { checkpoint });
    const change = (value: number, checkpoint: Checkpoint) => reading(value, 7.04, { aspect: 'change', checkpoint });
    const then = [knee(178.2, 'address'), knee(172.9, 'top'), change(-5.3, 'top'), knee(173.2, 'impact')];
    const now = [knee(172.7, 'address'), knee(177.8, 'top'), change(5.1, 'top'), knee(168.1, 'impact')];
    then.push(change(-5, 'impact'));
    now.push(change(-4.6, 'impact'));
    const compared = then.map((before, place) => comparison(before, now[place] ?? before));
    const figures = figuresOf([then, now], compared);
    expect(now.map((each) => figures.reading(each).text)).toEqual([
      ...['172.7° ± 4.5°', '177.8° ± 4.5°', '+5.1° ± 7.0°'],
      // With the number at address that stands beside them: 168 - 172.7, to a whole degree.
      ...['168° ± 5°', '−5° ± 7°'],
    ]);
    expect(compared.map((each) => figures.comparison(each).difference.text)).toEqual([
      ...['−5.5° ± 6.4°', '+4.9° ± 6.4°', '+10.4° ± 10.0°', '−5° ± 6°', '0° ± 10°'],
    ]);
  });

  it('and says on what a verdict hangs where the digits do not show it', () => {
    const close = (then: number, now: number, half: number, tolerance: number | null) => {
      const one = comparison(reading(then, half), reading(now, half), tolerance);
      return [one.verdict, figuresOf([], [one]).comparison(one).close];
    };
    // The ± of the difference is 4.9, and 5 % at one end 4.11: 0.05 + 4.11 stays under 4.2, 0.15 + 4.11 does not.
    const half = 4.9 / Math.SQRT2;
    expect(close(30, 30.05, half, 4.2)).toEqual(['no change', 'at most 4.16°, tolerance 4.2°']);
    expect(close(30.15, 30, half, 4.2)).toEqual(["can't tell", 'up to 4.3°, tolerance 4.2°']);
    expect(close(30, 31.4, half, 2.5)).toEqual(["can't tell", null]);
    expect(close(30, 30, half, null)).toEqual(["can't tell", null]);
    expect(close(30, 30.5, 1, 5)).toEqual(['no change', null]);
    expect(close(30, 50, half, 5)).toEqual(['changed', null]);
    expect(close(0, 4.9005, half, null)).toEqual(['changed', '4.901° against ± 4.900°']);
  });

  it('in a change from address beside both of its values, then and now', () => {
    const random = seeded(7);
    let exact = 0;
    for (let run = 0; run < 500; run += 1) {
      const swing = (): readonly MeasuredReading[] => {
        const at = (checkpoint: Checkpoint) => reading(100 + 80 * random(), 1 + 5 * random(), { checkpoint });
        const [address, top, impact] = [at('address'), at('top'), at('impact')];
        const change = (after: MeasuredReading) =>
          reading(after.value - address.value, 1.96 * Math.hypot(after.u, address.u), {
            aspect: 'change',
            checkpoint: after.checkpoint,
          });
        return [address, top, impact, change(top), change(impact)];
      };
      const [then, now] = [swing(), swing()];
      const comparisons = then.map((before, place) => comparison(before, now[place] ?? before));
      const figures = figuresOf([then, now], comparisons);
      const shown = (one: MeasuredReading | undefined) => {
        if (one === undefined) throw new Error('it was made above');
        return inLastDigits(readOff(figures.reading(one).text));
      };
      const exactly = (one: MeasuredReading | undefined) => {
        if (one === undefined) throw new Error('it was made above');
        return readOff(figures.reading(one).text);
      };
      for (const list of [then, now])
        for (const [here, change] of [
          [list[1], list[3]],
          [list[2], list[4]],
        ]) {
          const [after, by, address] = [exactly(here), exactly(change), exactly(list[0])];
          const decimals = by.decimals[0] ?? 0;
          // The number at address may have a digit more, never less: then it is the sum to the change's last digit.
          const isExact = address.decimals[0] === decimals;
          const most = (isExact ? 0 : 0.5 * 10 ** -decimals) + 1e-9;
          expect(address.decimals[0]).toBeGreaterThanOrEqual(decimals);
          expect(Math.abs(after.value - address.value - by.value)).toBeLessThanOrEqual(most);
          exact += isExact ? 1 : 0;
        }
      for (const [place, each] of comparisons.entries()) {
        const written = figures.comparison(each);
        expect(written.now.text).toBe(figures.reading(each.now).text);
        expect(inLastDigits(readOff(written.difference.text))).toBe(shown(now[place]) - shown(then[place]));
      }
    }
    expect(exact).toBeGreaterThan(1800);
  });

  it('in how far shoulders are from square', () => {
    const shoulders = reading(85.5, 4, { id: 'shoulder-to-spine', view: 'down-the-line' });
    const figures = figuresOf([[shoulders]]);
    expect(figures.reading(shoulders).text).toBe('86° ± 4°');
    expect(figures.meaning(shoulders)).toBe('4° steeper than square');
  });

  it('in the sides of a box and the radius and diameter of a circle', () => {
    const number = (id: ShapeNumber['id'], value: number, half: number): ShapeNumber => ({
      ...{ id, state: 'measured', unit: 'cm', method: 'first-order', coverage: 1.96, notes: [] },
      ...{ value, u: half / 1.96, interval: [value - half, value + half] },
    });
    const written = (...numbers: readonly ShapeNumber[]) => formatShapeNumbers(numbers).map((each) => each?.text);
    expect(written(number('width', 27.1, 2.9), number('height', 33, 3))).toEqual(['27 ± 3 cm', '33 ± 3 cm']);
    expect(written(number('radius', 12.4, 3), number('diameter', 24.8, 6))).toEqual(['12 ± 3 cm', '24 ± 6 cm']);
  });
});

describe('what stands on stills adds up', () => {
  const swing = inventedSwing();
  const views = ['down-the-line', 'face-on'] as const;
  const pagesOf = (swings: Pick<ReportSource, 'then' | 'now'>) =>
    stillPages(reportOf({ ...swings, goals: SHIPPED_GOALS, placing: STEADY }), { checkpoints: CHECKPOINTS, views });

  it('then, now and the difference of every row, for swings that differ a little and a lot', () => {
    const random = seeded(11);
    let rows = 0;
    for (const by of [0, 3, 12, 60]) {
      const shaken = movedSwing(swing, ({ x, y }) => ({ x: x + by * (random() - 0.5), y: y + by * (random() - 0.5) }));
      const now = { ...shaken, date: '2026-06-12' };
      for (const still of pagesOf({ then: swing, now }))
        for (const row of still.comparisons) {
          const [then, after, difference] = [row.then, row.now, row.difference].map(readOff);
          if (then === undefined || after === undefined || difference === undefined)
            throw new Error('three are written');
          expect(inLastDigits(after) - inLastDigits(then), row.label).toBe(inLastDigits(difference));
          rows += 1;
        }
    }
    expect(rows).toBeGreaterThan(200);
  });

  it('every change from address, with the number that stands at address', () => {
    let changes = 0;
    const random = seeded(12);
    const shaken = movedSwing(swing, ({ x, y }) => ({ x: x + 12 * (random() - 0.5), y: y + 12 * (random() - 0.5) }));
    for (const still of [swing, shaken].flatMap((now) => pagesOf({ then: null, now }))) {
      const [address, ...later] = still.panels.map(({ readings }) => readings);
      for (const { label, value } of later.flat()) {
        const change = / ([+−]?\d[^ ]* ± [^ ]+) from address$/.exec(value)?.[1];
        const before = address?.find((each) => each.label === label);
        if (change === undefined || before === undefined) continue;
        const sum = inLastDigits(readOff(before.value)) + inLastDigits(readOff(change));
        expect(sum, `${label}: ${before.value}; ${value}`).toBe(inLastDigits(readOff(value)));
        changes += 1;
      }
    }
    expect(changes).toBeGreaterThan(30);
  });
});
