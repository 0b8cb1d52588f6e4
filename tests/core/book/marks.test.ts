import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { seeded } from '../../support/seeded.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame, sampleIndex } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

async function bookWithClip() {
  const book = newBook();
  const { swing } = addSample(book);
  return { book, swing, clip: await addSampleClip(book, swing.id) };
}

const at = (x: number, y: number) => ({ x, y });
const everyShape = (): Shape[] => [
  { id: randomUUID(), kind: 'line', a: at(0, 0), b: at(1, 2), role: null, lengthMm: null },
  { id: randomUUID(), kind: 'line', a: at(0, 0), b: at(0, 900), role: 'plumb', lengthMm: null },
  { id: randomUUID(), kind: 'line', a: at(3, 4), b: at(5, 6), role: 'yardstick', lengthMm: 1143.0000000001 },
  { id: randomUUID(), kind: 'angle', vertex: at(1, 1), a: at(2, 2), b: at(-3, 1e-9) },
  { id: randomUUID(), kind: 'box', x: -10.25, y: 3, width: 0, height: 17.5, role: 'head-box' },
  { id: randomUUID(), kind: 'circle', centre: at(0.1, 0.2), radius: 0.30000000000000004 },
];

describe('marks', () => {
  test('every kind of mark comes back whole and in order, also after the book was closed', async () => {
    const { book, clip } = await bookWithClip();
    const marks: FrameMarks = {
      frame: sampleFrame(2),
      points: { ball: { ...at(1, 2), hidden: true }, 'lead-toe': { ...at(-1, 2000.5), hidden: false } },
      shapes: everyShape(),
    };
    book.saveMarks(clip.id, marks);
    expect(book.readMarks(clip.id)).toEqual([marks]);
    book.close();
    expect(reopen(book.folder).readMarks(clip.id)).toEqual([marks]);
  });

  test('coordinates keep every bit, from the smallest float to the largest', async () => {
    const { book, clip } = await bookWithClip();
    const random = seeded(20260512);
    const edges = [
      1e-9,
      5e-324,
      Number.EPSILON,
      1 / 3,
      0.1 + 0.2,
      1920 - 1e-9,
      Number.MAX_VALUE,
      -Number.MAX_VALUE,
      2 ** 53,
    ];
    const bits = new DataView(new ArrayBuffer(8));
    const anyFloat = (): number => {
      bits.setUint32(0, random() * 2 ** 32);
      bits.setUint32(4, random() * 2 ** 32);
      const value = bits.getFloat64(0);
      return Number.isFinite(value) ? value : 0.5;
    };
    for (let round = 0; round < 40; round += 1) {
      const number = (): number => edges.shift() ?? anyFloat();
      const points = Object.fromEntries(BODY_POINTS.map((id) => [id, { x: number(), y: number(), hidden: false }]));
      const shapes: Shape[] = [{ id: randomUUID(), kind: 'circle', centre: at(number(), number()), radius: 1e-9 }];
      const marks: FrameMarks = { frame: sampleFrame(1), points, shapes };
      book.saveMarks(clip.id, marks);
      expect(book.readMarks(clip.id)).toEqual([marks]);
    }
  });

  test('a save replaces what stood on that frame and nothing else; empty marks remove the entry', async () => {
    const { book, clip } = await bookWithClip();
    const on = (index: number, x: number): FrameMarks => ({
      frame: sampleFrame(index),
      points: { ball: { x, y: 0, hidden: false } },
      shapes: [],
    });
    book.saveMarks(clip.id, on(4, 1));
    book.saveMarks(clip.id, { ...on(0, 2), shapes: everyShape() });
    book.saveMarks(clip.id, on(0, 3));
    expect(book.readMarks(clip.id)).toEqual([on(0, 3), on(4, 1)]);
    book.saveMarks(clip.id, { frame: sampleFrame(0), points: {}, shapes: [] });
    book.saveMarks(clip.id, { frame: sampleFrame(1), points: {}, shapes: [] });
    expect(book.readMarks(clip.id)).toEqual([on(4, 1)]);
  });

  test('a shape may be saved again where it stands, and be taken off one frame and put on another', async () => {
    const { book, clip } = await bookWithClip();
    const shapes = everyShape();
    book.saveMarks(clip.id, { frame: sampleFrame(0), points: {}, shapes });
    book.saveMarks(clip.id, { frame: sampleFrame(0), points: {}, shapes: shapes.toReversed() });
    expect(book.readMarks(clip.id)[0]?.shapes).toEqual(shapes.toReversed());
    const elsewhere = { frame: sampleFrame(1), points: {}, shapes };
    expectThrown(() => book.saveMarks(clip.id, elsewhere), 'bad-request', /already stands on another frame/);
    expect(book.readMarks(clip.id)).toHaveLength(1);
    book.saveMarks(clip.id, { frame: sampleFrame(0), points: {}, shapes: [] });
    book.saveMarks(clip.id, elsewhere);
    expect(book.readMarks(clip.id)).toEqual([elsewhere]);
  });

  const id = '11111111-1111-4111-8111-111111111111';
  const circle = { id, kind: 'circle', centre: at(0, 0), radius: 1 };
  const line = { id, kind: 'line', a: at(0, 0), b: at(1, 1), role: null, lengthMm: null };
  test.each<[string, unknown, RegExp]>([
    ['a point at NaN', { points: { ball: { x: NaN, y: 0, hidden: false } } }, /points\.ball\.x must be a/],
    [
      'a point at infinity',
      { points: { ball: { x: 0, y: Infinity, hidden: false } } },
      /points\.ball\.y must be a finite/,
    ],
    [
      'text for a coordinate',
      { points: { ball: { x: '1', y: 0, hidden: false } } },
      /points\.ball\.x must be a number/,
    ],
    ['an unknown body point', { points: { elbow: { x: 1, y: 0, hidden: false } } }, /points\.elbow/],
    ['a point without hidden', { points: { ball: { x: 1, y: 0 } } }, /points\.ball\.hidden is missing/],
    [
      'a surplus field',
      { points: { ball: { x: 1, y: 0, z: 2, hidden: false } } },
      /points\.ball\.z is not a known field/,
    ],
    ['a negative radius', { shapes: [{ ...circle, radius: -1 }] }, /shapes\[0\]\.radius must be 0 or more/],
    [
      'an unknown kind',
      { shapes: [{ ...circle, kind: 'star' }] },
      /shapes\[0\]\.kind must be line or angle or box or circle/,
    ],
    ['an id that is no UUID', { shapes: [{ ...circle, id: '7' }] }, /shapes\[0\]\.id must be a UUID/],
    ['one id twice', { shapes: [circle, { ...line }] }, /shapes must not use one id twice/],
    [
      'a known length without its length',
      { shapes: [{ ...line, role: 'yardstick' }] },
      /shapes\[0\] must have a lengthMm/,
    ],
    ['a length on a plain line', { shapes: [{ ...line, lengthMm: 5 }] }, /shapes\[0\] must have a lengthMm/],
    [
      'a known length of 0 mm',
      { shapes: [{ ...line, role: 'yardstick', lengthMm: 0 }] },
      /lengthMm must be more than 0/,
    ],
    ['a frame before the first', { frame: { index: -1, pts: 0 } }, /frame\.index must be 0 or more/],
    ['half a frame', { frame: { index: 0.5, pts: 0 } }, /frame\.index must be a whole number/],
    ['a frame after the last', { frame: { index: 5, pts: 13515 } }, /has 5 frames; there is no frame 5/],
    ['a frame far after the last', { frame: { index: Number.MAX_SAFE_INTEGER, pts: 0 } }, /./],
    [
      'the time stamp of another frame',
      { frame: { index: 1, pts: sampleFrame(2).pts } },
      /does not have the time stamp/,
    ],
    ['no points', { points: null }, /points must be an object/],
  ])('%s is refused and what stood there stays', async (_, wrong, sentence) => {
    const { book, clip } = await bookWithClip();
    const before: FrameMarks = { frame: sampleFrame(1), points: {}, shapes: everyShape() };
    book.saveMarks(clip.id, before);
    const marks: unknown = { frame: sampleFrame(1), points: {}, shapes: [], ...Object(wrong) };
    expectThrown(() => Reflect.apply(book.saveMarks, undefined, [clip.id, marks]), 'bad-request', sentence);
    expect(book.readMarks(clip.id)).toEqual([before]);
  });
});

describe('checkpoints', () => {
  test('a name stands on one frame, a frame may bear several, and null takes the name away', async () => {
    const { book, swing, clip } = await bookWithClip();
    for (const checkpoint of CHECKPOINTS)
      expect(book.setCheckpoint(clip.id, checkpoint, sampleFrame(4))).toEqual({ ...sampleFrame(4), ticks: 3004 });
    book.setCheckpoint(clip.id, 'top', sampleFrame(1));
    expect(book.setCheckpoint(clip.id, 'address', null)).toBeNull();
    expect(book.setCheckpoint(clip.id, 'address', null)).toBeNull();
    const named = book.openSwing(swing.id).clips[0]?.checkpoints ?? {};
    expect(Object.keys(named).toSorted()).toEqual(CHECKPOINTS.filter((name) => name !== 'address').toSorted());
    expect(named.top).toEqual({ ...sampleFrame(1), ticks: 3002 });
  });

  test('a frame the clip does not have keeps the name where it was', async () => {
    const { book, swing, clip } = await bookWithClip();
    book.setCheckpoint(clip.id, 'top', sampleFrame(1));
    for (const frame of [{ index: 5, pts: 0 }, { index: 0, pts: 7 }, { index: NaN, pts: 0 }, sampleFrame(-1)])
      expectThrown(() => book.setCheckpoint(clip.id, 'top', frame), 'bad-request');
    expectThrown(
      () => Reflect.apply(book.setCheckpoint, undefined, [clip.id, 'waggle', sampleFrame(0)]),
      'bad-request',
    );
    expect(book.openSwing(swing.id).clips[0]?.checkpoints.top).toEqual({ ...sampleFrame(1), ticks: 3002 });
  });
});

describe('clips', () => {
  test('the frame table comes back as it was at import, to the largest whole number', async () => {
    const { book, swing } = await bookWithClip();
    const odd = sampleIndex(1);
    const frames = [
      { pts: Number.MIN_SAFE_INTEGER, ticks: 1, key: false },
      { pts: 0, ticks: Number.MAX_SAFE_INTEGER, key: true },
      { pts: Number.MAX_SAFE_INTEGER, ticks: 5, key: false },
    ];
    const index = { ...odd, frames, nominalRate: null, captureRate: null };
    const clip = await addSampleClip(book, swing.id, { view: 'down-the-line', index });
    expect(book.clipIndex(clip.id)).toEqual(index);
    expect(book.findClip(clip.id)).toEqual({ ...clip, frameCount: 3, nominalRate: null, captureRate: null });
    expect(book.setCheckpoint(clip.id, 'finish', { index: 2, pts: Number.MAX_SAFE_INTEGER })?.ticks).toBe(5);
  });

  test('an index written before damage and dynamic range were known reads as sound and standard', async () => {
    const { book, clip } = await bookWithClip();
    const facts = "json_remove(facts, '$.damage', '$.dynamicRange')";
    book.database.run(`UPDATE clip_frames SET facts = ${facts} WHERE clip_id = ?`, clip.id);
    expect(book.clipIndex(clip.id)).toEqual({ ...sampleIndex(), damage: [], dynamicRange: 'sdr' });
  });

  test('damage and dynamic range come back; damage behind the last frame is a damaged record', async () => {
    const { book, swing, clip } = await bookWithClip();
    const index: ClipIndex = { ...sampleIndex(), damage: [{ from: 2, to: 4 }], dynamicRange: 'pq' };
    const other = await addSampleClip(book, swing.id, { view: 'down-the-line', index });
    expect(book.clipIndex(other.id)).toEqual(index);
    const damage = 'json_set(facts, \'$.damage\', json(\'[{"from":2,"to":5}]\'))';
    book.database.run(`UPDATE clip_frames SET facts = ${damage} WHERE clip_id = ?`, clip.id);
    expectThrown(() => book.clipIndex(clip.id), 'book-damaged', /damage within its frames/);
  });

  test('a confirmed capture rate is kept beside what the file said', async () => {
    const { book, clip } = await bookWithClip();
    const rate = { framesPerSecond: { num: 240000, den: 1001 }, confirmed: true };
    book.setCaptureRate(clip.id, rate);
    expect(book.findClip(clip.id).captureRate).toEqual(rate);
    expect(book.clipIndex(clip.id).captureRate).toEqual(sampleIndex().captureRate);
    book.setCaptureRate(clip.id, null);
    expect(book.findClip(clip.id).captureRate).toBeNull();
    for (const num of [0, -240, 0.5, NaN])
      expectThrown(
        () => book.setCaptureRate(clip.id, { framesPerSecond: { num, den: 1 }, confirmed: true }),
        'bad-request',
        /framesPerSecond\.num/,
      );
  });

  test('a swing has one clip a view, whether it is added or turned to that view', async () => {
    const { book, swing, clip } = await bookWithClip();
    book.setView(clip.id, 'down-the-line');
    const face = await addSampleClip(book, swing.id, { view: 'face-on' });
    expectThrown(() => book.setView(clip.id, 'face-on'), 'bad-request', /already has a clip of the view "Face on"/);
    const [outcome] = await Promise.allSettled([addSampleClip(book, swing.id, { view: 'face-on' })]);
    expect(outcome).toMatchObject({ status: 'rejected', reason: { code: 'bad-request' } });
    book.setView(face.id, 'face-on');
    expect(book.openSwing(swing.id).clips.map(({ view }) => view)).toEqual(['down-the-line', 'face-on']);
  });

  test('frames out of order, or none, are no clip', async () => {
    const { book, swing } = await bookWithClip();
    const two = sampleIndex(2);
    for (const frames of [[], two.frames.toReversed(), [...two.frames, ...two.frames.slice(1)]]) {
      const adding = addSampleClip(book, swing.id, { view: 'down-the-line', index: { ...two, frames } });
      const [outcome] = await Promise.allSettled([adding]);
      expect(outcome).toMatchObject({ status: 'rejected', reason: { code: 'bad-request' } });
    }
    expect(book.openSwing(swing.id).clips).toHaveLength(1);
  });
});
