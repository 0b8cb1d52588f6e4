import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import { READING_IDS } from '../../../core/model/reading.ts';
import { liesIn, sharedArea, type Box } from '../../../core/painting/box.ts';
import { layoutPhone } from '../../../core/painting/phone-layout.ts';
import type { PanelOrder } from '../../../core/painting/sheet-order.ts';
import type { PhoneWords } from '../../../core/report/phone-still.ts';
import { within } from '../../support/within.ts';

/** Half the size a character, a little more when bold: near enough to a real face for laws about places. */
function measureText(text: string, font: string): number {
  const size = Number(/ ([\d.]+)px/.exec(font)?.[1]);
  return [...text].length * size * (font.startsWith('600') ? 0.52 : 0.5);
}

const CAPTION = {
  firstName: 'Mara',
  date: '12 May 2026',
  view: 'Down the line',
  club: '7 iron',
  checkpoint: 'Top',
  time: null,
};
const panel = (look: PanelOrder['look'], picture = { width: 700, height: 850 }): PanelOrder => ({
  ...{ picture, crop: null, look, caption: CAPTION, marks: [], readings: [] },
});
const WORDS: PhoneWords = {
  headline: 'Shoulders to spine at top: 105° → 91°, changed',
  facts: 'Top, down the line, 7 iron',
  lines: [
    { label: 'Shoulders to spine', number: '105° → 91°', verdict: 'changed', isStrong: true },
    { label: 'Trail knee', number: '149° → 166°', verdict: 'changed', isStrong: true },
    { label: 'Back incline', number: '30° → 31°', verdict: 'no change', isStrong: false },
  ],
  rest: { names: "Can't tell: hip rise, hip depth, lead knee.", counts: "Can't tell: 3 more." },
  foot: 'Mara, 12 May 2026',
  caution: 'Measured from one camera. If anything hurts, stop and see a doctor or physiotherapist.',
};
const LONGEST = READING_IDS.map((id) => CATALOGUE[id].label)
  .toSorted((a, b) => b.length - a.length)
  .slice(0, 3);
const LONG_LINES = LONGEST.map((label) => ({
  ...{
    label: `${label} since address`,
    number: '−12.3 → −45.6 cm',
    verdict: 'worth a look',
    isStrong: true,
  },
}));
const PAIR = [panel('then'), panel('now')];
const ORDERS = {
  'then and now': { panels: PAIR, words: WORDS },
  'one upright picture': { panels: [panel('plain', { width: 354, height: 492 })], words: WORDS },
  'one wide picture': { panels: [panel('plain', { width: 1440, height: 1080 })], words: WORDS },
  'the longest names': { panels: PAIR, words: { ...WORDS, lines: LONG_LINES } },
  'no line at all': { panels: PAIR, words: { ...WORDS, lines: [], rest: { names: '', counts: '' } } },
  'names beyond all measure': {
    panels: PAIR,
    words: { ...WORDS, facts: 'Donaudampfschifffahrt '.repeat(30), foot: 'Maximiliane-Alexandrina '.repeat(12) },
  },
};

const grown = (box: Box, by: number): Box => ({
  ...{ x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by },
});

describe.each(Object.entries(ORDERS))('a still for a phone: %s', (name, order) => {
  const layout = layoutPhone({ width: 1080, ...order }, measureText);
  const rooms = [...layout.texts.map(({ room }) => room), ...layout.pictures.map(({ target }) => target)];

  test('is 1080 by 1350, and grows only for what nobody could foresee', () => {
    expect(layout.width).toBe(1080);
    if (name === 'names beyond all measure') expect(layout.height).toBeGreaterThan(1350);
    else expect(layout.height).toBe(1350);
  });

  test('has everything on it, nothing over another', () => {
    const all = grown({ x: 0, y: 0, width: layout.width, height: layout.height }, 1e-6);
    for (const [index, room] of rooms.entries()) {
      expect(liesIn(room, all)).toBe(true);
      for (const other of rooms.slice(index + 1)) expect(sharedArea(grown(room, -1e-6), grown(other, -1e-6))).toBe(0);
    }
  });

  test('says all of its words', () => {
    const plain = (text: string) => text.replaceAll(/[\s\u00A0]+/g, '');
    const shown = plain(layout.texts.map(({ text }) => text).join(''));
    const { headline, facts, lines, foot, caution, rest } = order.words;
    for (const text of [
      headline,
      facts,
      foot,
      caution,
      ...lines.flatMap(({ label, number, verdict }) => [label, number, verdict]),
    ])
      expect(shown).toContain(plain(text));
    expect(shown.includes(plain(rest.names)) || shown.includes(plain(rest.counts))).toBe(true);
  });

  test('sets nothing that matters below 50 of 1080 pixels, and its pictures at one size', () => {
    for (const { tone, size } of layout.texts) expect(size).toBeGreaterThanOrEqual(tone === 'ink' ? 50 : 36);
    for (const { labelSize } of layout.pictures) expect(labelSize).toBeGreaterThanOrEqual(50);
    expect(new Set(layout.pictures.map(({ target: { width, height, y } }) => `${width} ${height} ${y}`)).size).toBe(1);
    for (const { source, target } of layout.pictures)
      within(target.width / target.height, source.width / source.height, 1e-9, 'aspect');
  });
});

test('names of the rest give way to their number where the picture would be small', () => {
  const textsOf = (lines: PhoneWords['lines']) =>
    layoutPhone({ width: 1080, panels: PAIR, words: { ...WORDS, lines } }, measureText)
      .texts.map(({ text }) => text)
      .join(' ');
  expect(textsOf(WORDS.lines.slice(0, 1))).toContain('hip rise');
  expect(textsOf(LONG_LINES)).toContain('3 more');
});

test('without a panel is our own mistake', () => {
  expect(() => layoutPhone({ width: 1080, panels: [], words: WORDS }, measureText)).toThrow(/at least one panel/);
});
