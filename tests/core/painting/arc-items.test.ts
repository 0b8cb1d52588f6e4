import { describe, expect, it } from 'vitest';
import { sideOf } from '../../../core/geometry/point.ts';
import { scaleOf } from '../../../core/measure/camera/calibration.ts';
import { formatReading } from '../../../core/measure/words/format.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { EdgeShape, PicturePoint } from '../../../core/model/mark.ts';
import type { ReadingId } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import type { DrawItem, SegmentItem } from '../../../core/painting/draw-item.ts';
import { readingItems } from '../../../core/painting/reading-items.ts';
import { distanceToOutline } from '../../../renderer/tools/pick.ts';
import { within } from '../../support/within.ts';
import { DEGREE, INCLINE, RADIUS, arcSwing } from '../measure/arc-swing.ts';
import { STEADY } from '../../support/steady.ts';

const ARC_READINGS = ['arc-radius', 'low-point', 'arc-centre-shift', 'clubhead-speed'] as const;

function drawn(swing: MarkedSwing, id: ReadingId) {
  const clip = swing.clips.find(({ view }) => view === 'face-on');
  const reading = readSwing(swing, STEADY).find((each) => each.id === id && each.view === 'face-on');
  if (clip === undefined || reading?.state !== 'measured') throw new Error(`${id} is missing`);
  const others = swing.clips.filter((each) => each !== clip);
  const items = readingItems(reading, { clip, side: sideOf(swing.handedness), look: 'plain', others });
  return { reading, clip, items };
}

function ticked(items: readonly DrawItem[]): SegmentItem {
  const found = items.filter((item) => item.kind === 'segment' && item.ends === 'ticks');
  const [only] = found;
  if (only?.kind !== 'segment' || found.length > 1) throw new Error('there is not one length');
  return only;
}

const long = ({ a, b }: SegmentItem) => Math.hypot(b.x - a.x, b.y - a.y);
const SWINGS = [
  arcSwing({ moved: -20, ball: 8 }),
  arcSwing({ moved: -20, ball: 8, handedness: 'left' }),
  arcSwing({ moved: 12, ball: -6, roll: 3 * DEGREE }),
  arcSwing({ moved: 12, ball: -6, roll: -3 * DEGREE, handedness: 'left' }),
  arcSwing({ moved: 12, ball: -6, downTheLine: 'nothing' }),
];

describe('what is drawn for a reading of the arc', () => {
  it('has ticks at the ends of exactly the length that was read', () => {
    for (const swing of SWINGS)
      for (const id of ['arc-radius', 'low-point', 'arc-centre-shift'] as const) {
        const { reading, clip, items } = drawn(swing, id);
        const scale = scaleOf(clip, 'ball', 1)?.quantity.value ?? Number.NaN;
        within(long(ticked(items)) * scale, Math.abs(reading.value), 1e-6, id);
      }
  });

  it('has the arc as a dashed line that runs through the places of the path and over the lowest of them', () => {
    const { items } = drawn(arcSwing({ ball: 8 }), 'low-point');
    const [curve, ...rest] = items.filter((item) => item.kind === 'polyline');
    if (curve === undefined) throw new Error('no curve');
    expect(rest).toEqual([]);
    expect(curve.weight).toBe('guide');
    for (const { x, y } of curve.points)
      within(Math.hypot((x - 900) / RADIUS, (y - 500) / (RADIUS * Math.sin(INCLINE))), 1, 1e-6);
    const lowest = Math.max(...curve.points.map(({ y }) => y));
    within(lowest, 500 + RADIUS * Math.sin(INCLINE), 0.5);
  });

  it('has the centre, the low point and the ball', () => {
    const { items } = drawn(arcSwing({ ball: 8 }), 'low-point');
    const places = items.filter((item) => item.kind === 'place').map(({ at }) => at);
    const wanted: readonly PicturePoint[] = [
      { x: 900, y: 500 },
      { x: 900, y: 500 + RADIUS * Math.sin(INCLINE) },
      { x: 908, y: 500 + RADIUS * Math.sin(INCLINE) },
    ];
    expect(places).toHaveLength(wanted.length);
    for (const [i, at] of wanted.entries()) {
      within(places[i]?.x ?? Number.NaN, at.x, 1e-6);
      within(places[i]?.y ?? Number.NaN, at.y, 1e-6);
    }
  });

  it('shows both arcs for the shift of their centres, and carries each number once', () => {
    const shift = drawn(arcSwing({ moved: -20 }), 'arc-centre-shift');
    expect(shift.items.filter(({ kind }) => kind === 'polyline')).toHaveLength(2);
    for (const id of ARC_READINGS) {
      const { items, reading } = drawn(arcSwing({ moved: -20, ball: 3 }), id);
      const labels = items.filter((item) => item.kind === 'label').map(({ text }) => text);
      expect(labels, id).toEqual([formatReading(reading).text]);
    }
  });

  it('is bent as the lens bends it, so that it runs where the clubhead is seen', () => {
    const half = Math.hypot(960, 540);
    const bent = ({ x, y }: PicturePoint): PicturePoint => {
      const s = ((x - 960) ** 2 + (y - 540) ** 2) / half ** 2;
      return { x: 960 + (x - 960) * (1 - 0.08 * s), y: 540 + (y - 540) * (1 - 0.08 * s) };
    };
    const edge = (id: string, a: PicturePoint, b: PicturePoint): EdgeShape => ({
      kind: 'edge',
      id,
      places: [0, 0.25, 0.5, 0.75, 1].map((t) => bent({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) })),
    });
    const edges = [
      edge('top', { x: 50, y: 40 }, { x: 1870, y: 40 }),
      edge('side', { x: 60, y: 20 }, { x: 60, y: 1060 }),
    ];
    const swing = arcSwing({ place: bent, shapes: edges });
    const { items } = drawn(swing, 'arc-radius');
    const curve = items.find((item) => item.kind === 'polyline');
    const path = swing.clips[1]?.marks[0]?.shapes.find((shape) => shape.kind === 'path');
    if (curve?.kind !== 'polyline' || path?.kind !== 'path') throw new Error('no curve');
    const fitted = path.places.filter(({ pts }) => pts >= 93 * 64 && pts <= 107 * 64);
    expect(fitted).toHaveLength(15);
    // The curve's straight pieces cut its bends by 0.1 px; without the lens the ends lie 10 px off.
    for (const place of fitted)
      expect(distanceToOutline(place, { kind: 'free', id: '', places: curve.points })).toBeLessThan(0.3);
  });
});

it('nothing is drawn once the path is gone', () => {
  const swing = arcSwing({ ball: 8 });
  const { reading, clip } = drawn(swing, 'low-point');
  const bare = { ...clip, marks: clip.marks.map((marks) => ({ ...marks, shapes: [] })) };
  expect(readingItems(reading, { clip: bare, side: 1, look: 'plain' })).toEqual([]);
});
