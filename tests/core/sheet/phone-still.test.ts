import { describe, expect, test } from 'vitest';
import { layoutPhone } from '../../../core/painting/phone-layout.ts';
import type { Raster } from '../../../core/sheet/raster.ts';
import { paintStill } from '../../../core/sheet/write-still.ts';
import type { PhoneWords } from '../../../core/report/phone-still.ts';
import { expectGolden } from '../../support/golden.ts';
import { bay } from './pictures.ts';

/** A phone shows a still this wide, in CSS pixels. */
const SHOWN = 360;

const CAPTION = { firstName: 'Mara', view: 'Down the line', club: '7 iron', checkpoint: 'Top', time: null };
const WORDS: PhoneWords = {
  headline: 'HEEL 105° → 91°',
  facts: 'Top, down the line, 7 iron',
  lines: [{ label: 'HEEL', number: '105° → 91°', verdict: 'HELD', isStrong: true }],
  rest: { names: "Can't tell: trail knee.", counts: "Can't tell: 1 more." },
  foot: 'Mara, 12 May 2026',
  caution: 'If anything hurts, stop and see a doctor or physiotherapist.',
};
const panel = (look: 'then' | 'now', date: string) => {
  const line = {
    kind: 'segment',
    a: { x: 100, y: 120 },
    b: { x: 250, y: 330 },
    look,
    weight: 'line',
    ends: 'plain',
  } as const;
  return {
    ...{ picture: bay(360, 430), crop: null, look, caption: { ...CAPTION, date }, readings: [] },
    marks: [
      line,
      { kind: 'label', at: { x: 175, y: 225 }, text: look === 'then' ? '105°' : '91°', look, of: [line] },
    ] as const,
  };
};

const PANELS = [panel('then', '14 April 2026'), panel('now', '12 May 2026')];

const still = (words: PhoneWords, width = 1080) =>
  paintStill({
    ...{ width, notes: [], cautions: [], phone: words },
    rows: [{ panels: PANELS, comparisons: [] }],
  });

/** Heights of the bands of rows, from the top, that hold ink between two columns of pixels. */
function bandsOfInk(
  { width, rgba }: Raster,
  [from, to]: readonly [number, number],
  rows: readonly [number, number],
): number[] {
  const heights: number[] = [];
  let height = 0;
  for (let y = rows[0]; y < rows[1]; y += 1) {
    let dark = false;
    for (let x = from; x < to; x += 1) if ((rgba[(y * width + x) * 4] ?? 255) < 110) dark = true;
    if (dark) height += 1;
    else if (height > 0) {
      heights.push(height);
      height = 0;
    }
  }
  return heights;
}

test('a still of then and now for a phone', async () => {
  const words = { ...WORDS, headline: 'Shoulders to spine at top: 105° → 91°, changed' };
  const lines = [
    { label: 'Shoulders to spine', number: '105° → 91°', verdict: 'changed', isStrong: true },
    { label: 'Back incline', number: '30° → 31°', verdict: 'no change', isStrong: false },
  ];
  expectGolden('phone-then-and-now', await still({ ...words, lines }, 720));
});

describe('at 360 pixels across, a capital of what matters is 11 pixels high', () => {
  test('in the headline, and in a line with its number and its verdict', async () => {
    const painted = await still(WORDS);
    const inCss = (pixels: number | undefined): number => ((pixels ?? 0) * SHOWN) / painted.width;
    // The headline's own columns: "HEEL" begins at the margin.
    const [headline] = bandsOfInk(painted, [44, 150], [0, 200]);
    expect(inCss(headline)).toBeGreaterThanOrEqual(11);
    // The line of readings lies below the pictures: its label at the left, its verdict in capitals at the right.
    const order = { width: painted.width, panels: PANELS, words: WORDS };
    const line = layoutPhone(order, (text, font) => (text.length * Number(/ ([\d.]+)px/.exec(font)?.[1])) / 2);
    const { y, height } = line.texts.find(({ text }) => text === 'HELD')?.room ?? { y: NaN, height: NaN };
    const below: readonly [number, number] = [Math.round(y), Math.round(y + height)];
    const [label] = bandsOfInk(painted, [44, 150], below);
    const [verdict] = bandsOfInk(painted, [920, 1036], below);
    expect(inCss(label)).toBeGreaterThanOrEqual(11);
    expect(inCss(verdict)).toBeGreaterThanOrEqual(11);
  });
});
