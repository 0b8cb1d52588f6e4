import { describe, expect, test } from 'vitest';
import { CLIPS, LARGE, LENGTHS, LONG, PAIR, ROWS, ROW_NAMES, planFigures } from './bars.ts';
import type { RowName } from './bars.ts';
import { atLeast, atMost, createLedger, meets } from './figures.ts';
import { parseOptions } from './options.ts';
import { reportText } from './report.ts';
import { figureTable } from './table.ts';

/** What was asked of the bench, row by row. */
const ASKED = [
  'index / raw decode of the clip (same run)',
  'first picture after choosing the file',
  'copy / raw decode',
  'single step (hand, up to 10 a second), picture on canvas, p95',
  'held key or run',
  'random jump, copy ready: data in the window / on canvas, p95',
  'random jump, copy not ready, p95',
  'sharp source picture after the pointer rests, p95',
  'a cell of the sheet, copy ready, from coming into sight to its picture, p95',
  'wrong frames over 2,000 requests per clip, first, last and +-4 around every key frame included',
  'memory, handles, processes after closing',
  'drag of a point among 20 points and 12 shapes on a 4K frame',
  'cost against clip length (2, 5, 10, 20 s)',
  'the first seconds of a clip of three minutes',
  'a swing of four seconds is kept of three minutes, until the bench shows it',
  'two cameras: what is measured for one clip, for two of one swing',
  'the video of a talk-through of two minutes',
];

const all = planFigures(CLIPS, ROW_NAMES);

function takenOn(name: RowName): readonly string[] {
  if (name === 'length') return [LENGTHS];
  if (name === 'long' || name === 'keep') return [LONG];
  if (name === 'two') return [PAIR];
  if (name === 'talk') return ['1080p240'];
  return name === 'drag' ? [LARGE] : CLIPS;
}

describe('the table of bars', () => {
  test('every row that was asked for has figures with a bar, but for lengths, drags and videos on every clip', () => {
    expect(ROW_NAMES.map((name) => ROWS[name].asks)).toEqual(ASKED);
    for (const name of ROW_NAMES)
      for (const clip of takenOn(name)) {
        const plans = planFigures(CLIPS, [name]).filter((plan) => plan.clip === clip);
        expect(
          plans.some(({ bar }) => bar !== null),
          `${name} on ${clip}`,
        ).toBe(true);
      }
    expect(planFigures(CLIPS, ['memory']).some(({ clip }) => clip === PAIR)).toBe(true);
  });
  test('a figure is named once for a clip', () => {
    const names = all.map(({ name, clip }) => `${name}|${clip}`);
    expect(names.filter((name, place) => names.indexOf(name) !== place)).toEqual([]);
  });
  test('the lengths and the pair come with their film alone', () => {
    expect(planFigures(['4k60'], ROW_NAMES).map(({ clip }) => clip)).not.toContain(LENGTHS);
    expect(planFigures(['4k60'], ROW_NAMES).map(({ clip }) => clip)).not.toContain(PAIR);
  });
});

describe('a bar', () => {
  test('is met by its own value; NaN, endless and nothing meet none', () => {
    expect([meets(130, atMost(130)), meets(130.1, atMost(130)), meets(8, atLeast(8)), meets(7.9, atLeast(8))]).toEqual([
      ...[true, false, true, false],
    ]);
    expect([meets(NaN, atMost(1)), meets(Infinity, atMost(1)), meets(null, atMost(1)), meets(null, null)]).toEqual([
      ...[false, false, false, false],
    ]);
    expect(meets(3, null)).toBe(true);
  });
});

describe('the JSON', () => {
  const ledger = createLedger(all);
  ledger.enter('index / raw decode', '4k60', 0.123456);
  ledger.enter('wrong frames', '4k60', 1);
  ledger.enter('proxy / raw decode', '4k60', Infinity);
  const machine = {
    ...{ processor: 'a', cores: 2, memoryGb: 8, system: 'b', node: 'c', ffmpeg: 'd', electron: null },
  };
  const parsed: unknown = JSON.parse(reportText({ machine, renderer: 'software', figures: ledger.figures() }));

  test('is a machine, a renderer and figures of six fields, nothing else', () => {
    expect(Object.keys(parsed ?? {})).toEqual(['machine', 'renderer', 'figures']);
    expect(parsed).toMatchObject({ machine, renderer: 'software' });
    for (const figure of ledger.figures())
      expect(Object.keys(figure)).toEqual(['name', 'clip', 'value', 'unit', 'bar', 'ok']);
  });
  test('holds every figure that was planned, in order; one that was not taken is not ok', () => {
    const figures = ledger.figures();
    expect(figures.map(({ name, clip }) => [name, clip])).toEqual(all.map(({ name, clip }) => [name, clip]));
    const of = (name: string) => figures.find((figure) => figure.name === name && figure.clip === '4k60');
    expect(of('index / raw decode')).toMatchObject({ value: 0.1235, unit: 'ratio', bar: '<= 0.15', ok: true });
    expect(of('wrong frames')).toMatchObject({ value: 1, bar: '<= 0', ok: false });
    expect(of('proxy / raw decode')).toMatchObject({ value: null, ok: false });
    expect(of('held key, forward')).toMatchObject({ value: null, bar: '>= 24', ok: false });
    expect(of('raw decode')).toMatchObject({ value: null, bar: null, ok: false });
  });
  test('a figure that nobody planned is a mistake', () => {
    expect(() => ledger.enter('index / raw decode', 'another clip', 1)).toThrow('planned');
  });
  test('the table says what was missed and what was not taken', () => {
    const lines = figureTable(ledger.figures()).split('\n');
    expect(lines).toHaveLength(all.length + 1);
    expect(lines.find((line) => line.startsWith('wrong frames') && line.includes('4k60'))).toMatch(
      / 1 .*<= 0 +MISSED$/,
    );
    expect(lines.find((line) => line.startsWith('held key, forward'))).toMatch(/not taken .*>= 24 +MISSED$/);
  });
});

describe('options', () => {
  test('without any, everything is measured', () => {
    expect(parseOptions([])).toEqual({ clips: CLIPS, rows: ROW_NAMES, json: false, out: null, quick: false });
  });
  test('parts are taken in the order of the table', () => {
    const given = ['--clip', '4k60', '--clip', '1080p240', '--figure', 'jump', '--json', '--out', 'a.json', '--quick'];
    expect(parseOptions(given)).toEqual({
      ...{ clips: ['1080p240', '4k60'], rows: ['jump'], json: true, out: 'a.json', quick: true },
    });
  });
  test('what there is not is refused in one sentence that says what there is', () => {
    expect(() => parseOptions(['--clip', '8k'])).toThrow(/8k is not there; choose from 1080p240, .*4k60\.$/);
    expect(() => parseOptions(['--figure', 'speed'])).toThrow(/choose from index, first/);
    expect(() => parseOptions(['--fast'])).toThrow('--fast');
  });
});
