import { describe, expect, it, test } from 'vitest';
import { toDegrees } from '../../../core/geometry/angle.ts';
import { sideOf } from '../../../core/geometry/point.ts';
import { scaleOf } from '../../../core/measure/camera/calibration.ts';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import { formatReading } from '../../../core/measure/words/format.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../../../core/model/swing.ts';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { readingItems } from '../../../core/painting/reading-items.ts';
import { seeded } from '../../support/seeded.ts';
import { within } from '../../support/within.ts';
import { measuredReading, swingOf } from '../measure/build-swing.ts';
import { ALL_SHAPES, HEIGHT, WIDTH, inventedSwing, movedSwing } from '../measure/invented-swing.ts';

const SEED = 4711;
const uniform = seeded(SEED);

/** The invented swing with its points anywhere; its plumb, known length and head box stay. */
function scattered(): MarkedSwing {
  const swing = inventedSwing(ALL_SHAPES);
  const place = () => ({ x: WIDTH * uniform(), y: HEIGHT * uniform(), hidden: false });
  const clips = swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map((marks) => ({
      ...marks,
      points: Object.fromEntries(BODY_POINTS.map((point) => [point, place()])),
    })),
  }));
  return { ...swing, clips };
}

interface Drawn {
  readonly reading: MeasuredReading;
  readonly clip: MarkedClip;
  readonly items: readonly DrawItem[];
}

function allDrawn(swing: MarkedSwing): readonly Drawn[] {
  const side = sideOf(swing.handedness);
  return readSwing(swing)
    .filter((reading) => reading.state === 'measured')
    .map((reading) => {
      const clip = swing.clips.find(({ view }) => view === reading.view);
      if (clip === undefined) throw new Error(`there is no clip of ${reading.view}`);
      return { reading, clip, items: readingItems(reading, { clip, side, look: 'plain' }) };
    });
}

function lengthOf(item: DrawItem | undefined): number {
  if (item?.kind !== 'segment') throw new Error('that is no segment');
  return Math.hypot(item.b.x - item.a.x, item.b.y - item.a.y);
}

/** 0 to 180: an arc shows no direction, and no angle beyond straight. */
function asArc(degrees: number): number {
  const turn = Math.abs(degrees) % 360;
  return turn > 180 ? 360 - turn : turn;
}

function mirrored(swing: MarkedSwing): MarkedSwing {
  return { ...movedSwing(swing, ({ x, y }) => ({ x: WIDTH - x, y })), handedness: 'left' };
}

describe(`what is drawn for a reading (seed ${String(SEED)})`, () => {
  const swings = [inventedSwing(ALL_SHAPES), ...Array.from({ length: 8 }, scattered)];
  const drawn = [...swings, ...swings.map(mirrored)].flatMap(allDrawn);

  it('has an arc of exactly the angle that was read', () => {
    const angles = drawn.filter(({ reading }) => reading.unit === 'deg' && reading.aspect === 'value');
    const shown = new Set<string>();
    for (const { reading, items } of angles) {
      const arcs = items.filter((item) => item.kind === 'arc');
      // Lines that meet far off have none.
      if (reading.id === 'shoulder-to-spine' && arcs.length === 0) continue;
      expect(arcs, reading.id).toHaveLength(1);
      for (const arc of arcs) within(toDegrees(arc.end - arc.start), asArc(reading.value), 1e-9, reading.id);
      shown.add(reading.id);
    }
    const all = Object.entries(CATALOGUE).filter(([, entry]) => entry.quantity === 'angle' && !entry.ground);
    expect([...shown].toSorted()).toEqual(all.map(([id]) => id).toSorted());
  });

  it('has ticks at the ends of exactly the length that was read', () => {
    const lengths = drawn.filter(({ reading }) => reading.unit === 'cm');
    for (const { reading, clip, items } of lengths) {
      const ticked = items.filter((item) => item.kind === 'segment' && item.ends === 'ticks');
      expect(ticked, reading.id).toHaveLength(1);
      const scale = scaleOf(clip, 'player', 1)?.quantity.value ?? Number.NaN;
      within(lengthOf(ticked[0]) * scale, Math.abs(reading.value), 1e-9, reading.id);
    }
    const all = Object.entries(CATALOGUE).filter(([, entry]) => entry.quantity === 'length' && !entry.ground);
    expect([...new Set(lengths.map(({ reading }) => reading.id))].toSorted()).toEqual(all.map(([id]) => id).toSorted());
  });

  it('has, for a ratio, the length and beside it that of address', () => {
    const ratios = drawn.filter(({ reading }) => reading.id === 'elbow-gap' || reading.id === 'club-radius');
    expect(ratios.length).toBeGreaterThan(10);
    for (const { reading, items } of ratios) within(lengthOf(items[0]) / lengthOf(items[1]), reading.value, 1e-9);
  });

  it('carries the number once, and for times nothing at all', () => {
    for (const { reading, items } of drawn) {
      const labels = items.filter((item) => item.kind === 'label').map(({ text }) => text);
      const isTime = ['backswing', 'downswing', 'tempo'].includes(reading.id);
      expect(labels).toEqual(isTime ? [] : [formatReading(reading).text]);
      if (isTime) expect(items).toEqual([]);
    }
  });

  it('shows for a change the lines of address beside those of its own frame', () => {
    for (const { reading, items } of drawn.filter((each) => each.reading.aspect === 'change')) {
      const value = drawn.find((each) => each.items !== items && each.reading.id === reading.id);
      expect(value).toBeDefined();
      const lines = items.filter((item) => item.kind === 'segment');
      expect(lines, reading.id).toHaveLength(reading.id === 'hip-line' ? 3 : 4);
    }
  });
});

test('shoulders to spine: the spine of address lies as it did, and both lines run on to where they meet', () => {
  const swing = swingOf({
    view: 'down-the-line',
    placed: {
      address: { tailbone: [100, 300], 'neck-base': [100, 200] },
      top: { 'lead-shoulder': [180, 240], 'trail-shoulder': [140, 240] },
    },
  });
  const reading = measuredReading(swing, 'shoulder-to-spine', { checkpoint: 'top' });
  const clip = swing.clips[0];
  if (clip === undefined) throw new Error('there is no clip');
  const guide = { look: 'now', weight: 'guide' } as const;
  expect(readingItems(reading, { clip, side: 1, look: 'now' })).toEqual([
    { kind: 'segment', a: { x: 180, y: 240 }, b: { x: 100, y: 240 }, ends: 'plain', ...guide },
    { kind: 'segment', a: { x: 100, y: 300 }, b: { x: 100, y: 200 }, ends: 'plain', ...guide },
    {
      kind: 'arc',
      centre: { x: 100, y: 240 },
      // 40 % of the arms of 100 px, since 5 % of 1080 would be more.
      radius: 40,
      // From the direction lead to trail (leftward) a quarter turn clockwise to straight up.
      start: Math.PI,
      end: 1.5 * Math.PI,
      look: 'now',
      weight: 'stick',
    },
    {
      kind: 'label',
      at: { x: 100 + 40 * Math.cos(1.25 * Math.PI), y: 240 + 40 * Math.sin(1.25 * Math.PI) },
      text: formatReading(reading).text,
      look: 'now',
      of: ['segment', 'segment', 'arc'].map((kind): unknown => expect.objectContaining({ kind })),
    },
  ]);
});

test('lines that run alike or meet far off are drawn without an arc', () => {
  const swing = swingOf({
    view: 'down-the-line',
    placed: {
      address: { tailbone: [100, 300], 'neck-base': [100, 200] },
      top: { 'lead-shoulder': [300, 200], 'trail-shoulder': [300, 300] },
    },
  });
  const reading = measuredReading(swing, 'shoulder-to-spine', { checkpoint: 'top' });
  const clip = swing.clips[0];
  if (clip === undefined) throw new Error('there is no clip');
  const kinds = readingItems(reading, { clip, side: 1, look: 'plain' }).map(({ kind }) => kind);
  expect(kinds).toEqual(['segment', 'segment', 'label']);
});

test('nothing is drawn once a mark that it was made from is gone', () => {
  const swing = inventedSwing(ALL_SHAPES);
  const [behind, facing] = swing.clips;
  const back = measuredReading(swing, 'back-incline', { checkpoint: 'top' });
  const box = measuredReading(swing, 'head-box', { checkpoint: 'top' });
  if (behind === undefined || facing === undefined) throw new Error('there are not two clips');
  const bare = (clip: MarkedClip) => ({ ...clip, marks: clip.marks.map((marks) => ({ ...marks, points: {} })) });
  const unboxed = { ...facing, marks: facing.marks.map((marks) => ({ ...marks, shapes: [] })) };
  expect(readingItems(back, { clip: behind, side: 1, look: 'plain' })).not.toEqual([]);
  expect(readingItems(back, { clip: bare(behind), side: 1, look: 'plain' })).toEqual([]);
  expect(readingItems(box, { clip: facing, side: 1, look: 'plain' })).not.toEqual([]);
  expect(readingItems(box, { clip: unboxed, side: 1, look: 'plain' })).toEqual([]);
});
