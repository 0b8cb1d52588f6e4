import { describe, expect, test } from 'vitest';
import { liesIn, sharedArea, type Box } from '../../../core/painting/box.ts';
import { paintSheet } from '../../../core/painting/paint-sheet.ts';
import { layoutSheet, type SheetLayout } from '../../../core/painting/sheet-layout.ts';
import {
  HIDDEN_POINT_NOTE,
  type ComparisonRow,
  type PanelOrder,
  type SheetOrder,
} from '../../../core/painting/sheet-order.ts';
import { STILL_CAUTIONS, type PanelCaption } from '../../../core/report/captions.ts';
import { recordingContext } from '../../support/recording-context.ts';
import { within } from '../../support/within.ts';

/** Half the size a character, a little more when bold: near enough to a real face for laws about places. */
function measureText(text: string, font: string): number {
  const size = Number(/ ([\d.]+)px/.exec(font)?.[1]);
  return [...text].length * size * (font.startsWith('600') ? 0.52 : 0.5);
}

const CAPTION: PanelCaption = {
  firstName: 'Mara',
  date: '12 May 2026',
  view: 'Down the line',
  club: '7 iron',
  checkpoint: 'Top',
  time: '3.937 s',
};

function panel(changes: Partial<PanelOrder> = {}, caption: Partial<PanelCaption> = {}): PanelOrder {
  return {
    picture: { width: 354, height: 492 },
    crop: null,
    look: 'plain',
    caption: { ...CAPTION, ...caption },
    marks: [],
    readings: [{ label: 'Back incline', value: '41.2° ± 1.3°' }],
    ...changes,
  };
}

const COMPARISONS: readonly ComparisonRow[] = [
  { label: 'Back incline', then: '41.2° ± 1.3°', now: '38.6° ± 1.2°', difference: '−2.6° ± 1.8°', verdict: 'changed' },
  {
    label: 'Lead knee',
    then: '142.0° ± 2.4°',
    now: '141.2° ± 2.6°',
    difference: '−0.8° ± 3.5°',
    verdict: "can't tell",
  },
];
const THEN_NOW = [
  panel({ look: 'then', readings: [] }, { date: '14 April 2026' }),
  panel({ look: 'now', readings: [] }, { time: '4.036 s' }),
];
const LONG = 'Maximiliane-Alexandrina Wilhelmina Bartholomea Donaudampfschifffahrtsgesellschaftskapitaenin '.repeat(2);

const ORDERS: Readonly<Record<string, SheetOrder>> = {
  'one upright picture': { width: 1600, rows: [{ panels: [panel()], comparisons: [] }], notes: [], cautions: [] },
  'one wide picture': {
    width: 1600,
    rows: [{ panels: [panel({ picture: { width: 1440, height: 1080 } })], comparisons: [] }],
    notes: ['Placing error assumed.'],
    cautions: STILL_CAUTIONS,
  },
  'address, top and impact': {
    width: 1600,
    rows: [
      {
        panels: ['Address', 'Top', 'Impact'].map((checkpoint) => panel({}, { checkpoint })),
        comparisons: [],
      },
    ],
    notes: [],
    cautions: STILL_CAUTIONS,
  },
  'then and now': {
    width: 1600,
    rows: [{ panels: THEN_NOW, comparisons: COMPARISONS }],
    notes: [],
    cautions: STILL_CAUTIONS,
  },
  'three checkpoints, then and now': {
    width: 1600,
    rows: Array.from({ length: 3 }, () => ({ panels: THEN_NOW, comparisons: COMPARISONS })),
    notes: [],
    cautions: STILL_CAUTIONS,
  },
  'pictures of different shapes': {
    width: 1600,
    rows: [
      {
        panels: [panel(), panel({ picture: { width: 1920, height: 1080 } }), panel({ readings: [] })],
        comparisons: [],
      },
    ],
    notes: [],
    cautions: [],
  },
  'a narrow sheet with names beyond all measure': {
    width: 320,
    rows: [
      {
        panels: [
          panel({ look: 'then', readings: [{ label: LONG, value: LONG }] }, { firstName: LONG, club: LONG }),
          panel({ look: 'now' }, { firstName: LONG, club: `${LONG}2`, checkpoint: LONG }),
        ],
        comparisons: [{ label: LONG, then: LONG, now: LONG, difference: LONG, verdict: "can't tell" }],
      },
    ],
    notes: [LONG],
    cautions: [LONG],
  },
};

const wordsOf = (text: string) => text.replaceAll(/[\s\u00A0·]+/g, '');

function roomsOf(layout: SheetLayout): readonly Box[] {
  return [...layout.texts.map((text) => text.room), ...layout.pictures.map((picture) => picture.target)];
}

describe.each(Object.entries(ORDERS))('%s', (_, order) => {
  const layout = layoutSheet(order, measureText);
  const panels = order.rows.flatMap((row) => row.panels);

  test('everything lies on the sheet', () => {
    expect(layout.width).toBe(order.width);
    const sheet = { x: 0, y: 0, width: layout.width, height: layout.height };
    for (const room of [...roomsOf(layout), ...layout.rules]) expect(liesIn(room, grown(sheet, 1e-6))).toBe(true);
  });

  test('no text or picture covers another', () => {
    const rooms = roomsOf(layout);
    for (const [i, room] of rooms.entries())
      for (const other of rooms.slice(i + 1)) expect(sharedArea(grown(room, -1e-6), grown(other, -1e-6))).toBe(0);
  });

  test('pictures are in the order of the panels and keep their shape', () => {
    expect(layout.pictures.map((picture) => picture.panel)).toEqual(panels.map((__, index) => index));
    for (const { source, target, panel: index } of layout.pictures) {
      expect(source).toEqual({ x: 0, y: 0, ...panels[index]?.picture });
      within(target.width / target.height, source.width / source.height, 1e-9, 'aspect');
    }
  });

  test('every word and number of the order is on the sheet', () => {
    const shown = wordsOf(layout.texts.map((text) => text.text).join(''));
    const ordered = [
      ...panels.flatMap(({ caption, readings }) => [
        ...Object.values(caption).filter((text) => text !== null),
        ...readings.flatMap((reading) => [reading.label, reading.value]),
      ]),
      ...order.notes,
      ...order.cautions,
    ];
    for (const text of ordered) expect(shown).toContain(wordsOf(text));
    for (const row of order.rows.flatMap((each) => each.comparisons))
      for (const text of Object.values(row)) expect(shown).toContain(wordsOf(text));
  });

  test('numbers are at least 26 pixels high at 1600 pixels, and as large for their sheet at any width', () => {
    for (const text of layout.texts) expect(text.size / order.width).toBeGreaterThanOrEqual(26 / 1600);
    for (const picture of layout.pictures) within(picture.labelSize / order.width, 26 / 1600, 1e-9, 'label size');
  });
});

function grown(box: Box, by: number): Box {
  return { x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by };
}

test('what all panels share is said once, what differs stands with each panel', () => {
  const { texts } = layoutSheet(ORDERS['then and now'] ?? { width: 0, rows: [], notes: [], cautions: [] }, measureText);
  expect(texts.slice(0, 6).map((text) => text.text)).toEqual([
    'Mara',
    'Down the line · 7 iron',
    'Then · Top',
    '14 April 2026 · 3.937 s',
    'Now · Top',
    '12 May 2026 · 4.036 s',
  ]);
});

test('the comparison reads: label, then, now, difference, verdict', () => {
  const { texts } = layoutSheet(ORDERS['then and now'] ?? { width: 0, rows: [], notes: [], cautions: [] }, measureText);
  const start = texts.findIndex((text) => text.text === 'Reading');
  expect(texts.slice(start, start + 10).map((text) => text.text.replaceAll('\u00A0', ' '))).toEqual([
    ...['Reading', 'Then', 'Now', 'Difference', 'Verdict'],
    ...['Back incline', '41.2° ± 1.3°', '38.6° ± 1.2°', '−2.6° ± 1.8°', 'changed'],
  ]);
  const row = texts.slice(start + 5, start + 10);
  expect(new Set(row.map((text) => text.baseline)).size).toBe(1);
});

test('pictures of one row begin level, whatever their captions', () => {
  const order: SheetOrder = {
    width: 1600,
    rows: [{ panels: [panel(), panel({}, { club: LONG })], comparisons: [] }],
    notes: [],
    cautions: [],
  };
  expect(new Set(layoutSheet(order, measureText).pictures.map((picture) => picture.target.y)).size).toBe(1);
});

test('a crop is shown alone and keeps its shape', () => {
  const crop = { x: 50, y: 100, width: 200, height: 300 };
  const order: SheetOrder = {
    width: 1600,
    rows: [{ panels: [panel({ crop })], comparisons: [] }],
    notes: [],
    cautions: [],
  };
  const [picture] = layoutSheet(order, measureText).pictures;
  expect(picture?.source).toEqual(crop);
  within((picture?.target.width ?? 0) / (picture?.target.height ?? 1), 200 / 300, 1e-9, 'aspect');
});

test('a sheet that draws a hidden point says what its dotted ring means', () => {
  const drawn = (hidden: boolean) => {
    const marks = [{ kind: 'point', at: { x: 1, y: 1 }, look: 'plain', hidden }] as const;
    const rows = [{ panels: [panel({ marks })], comparisons: [] }];
    return layoutSheet({ width: 1600, rows, notes: [], cautions: [] }, measureText).texts.map((text) => text.text);
  };
  expect(drawn(true)).toContain(HIDDEN_POINT_NOTE);
  expect(drawn(false)).not.toContain(HIDDEN_POINT_NOTE);
});

describe('an order that makes no sense is refused', () => {
  const rows = (changes: Partial<PanelOrder>) => [{ panels: [panel(changes)], comparisons: [] }];
  test.each([
    ['no width', { width: 0, rows: rows({}) }],
    ['a width that is no number', { width: Number.NaN, rows: rows({}) }],
    ['an endless width', { width: Number.POSITIVE_INFINITY, rows: rows({}) }],
    ['no row', { width: 1600, rows: [] }],
    ['no panel', { width: 1600, rows: [{ panels: [], comparisons: [] }] }],
    ['a picture without size', { width: 1600, rows: rows({ picture: { width: 0, height: 10 } }) }],
    ['a crop outside', { width: 1600, rows: rows({ crop: { x: 300, y: 0, width: 100, height: 10 } }) }],
    ['a crop without size', { width: 1600, rows: rows({ crop: { x: 0, y: 0, width: 0, height: 10 } }) }],
  ])('%s', (_, order) => {
    expect(() => layoutSheet({ notes: [], cautions: [], ...order }, measureText)).toThrow(/must/);
  });
});

test('a sheet is painted ground first, each picture clipped, marks over it, texts last', () => {
  const marks = [{ kind: 'circle', centre: { x: 5, y: 6 }, radius: 7, look: 'plain', weight: 'line' }] as const;
  const order: SheetOrder = {
    width: 1600,
    rows: [{ panels: [panel({ marks }), panel()], comparisons: [] }],
    notes: [],
    cautions: [],
  };
  const layout = layoutSheet(order, measureText);
  const { ctx, calls } = recordingContext();
  const draw = (name: string) => () => calls.push(`picture ${name}`);
  paintSheet(ctx, layout, [draw('left'), draw('right')]);
  const kinds = calls.map((call) =>
    call
      .split(' ')
      .slice(0, call.startsWith('picture') ? 2 : 1)
      .join(' '),
  );
  const order1 = ['fillRect', 'clip', 'picture left', 'arc', 'clip', 'picture right', 'fillText'];
  const places = order1.reduce<number[]>(
    (found, kind) => [...found, kinds.indexOf(kind, (found.at(-1) ?? -1) + 1)],
    [],
  );
  expect(places).not.toContain(-1);
  expect(kinds.filter((kind) => kind === 'fillText')).toHaveLength(layout.texts.length);
  expect(kinds.filter((kind) => kind === 'save')).toHaveLength(kinds.filter((kind) => kind === 'restore').length);
});

test('a headline follows the name, in one sentence; without one the name stands alone', () => {
  const [order] = Object.values(ORDERS);
  if (order === undefined) throw new Error('no order');
  const first = (headline: string | null) => layoutSheet({ ...order, headline }, measureText).texts[0]?.text;
  expect(first(null)).toBe('Mara');
  expect(first('Head shift: 2 cm')).toBe('Mara, head shift: 2 cm');
});
