import { expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import { newBook } from './with-book.ts';

/** A clip of five frames with a name on frame 3, and points and a shape on frames 1 and 3. */
async function markedClip(): Promise<{ book: Book; clipId: string; index: ClipIndex }> {
  const book = newBook();
  const { swing } = addSample(book);
  const { id } = await addSampleClip(book, swing.id);
  book.setCheckpoint(id, 'top', sampleFrame(3));
  for (const frame of [1, 3])
    book.saveMarks(id, {
      frame: sampleFrame(frame),
      points: { tailbone: { x: frame + 0.25, y: 2, hidden: false } },
      shapes: [],
    });
  return { book, clipId: id, index: book.clipIndex(id) };
}

const without = (index: ClipIndex, place: number): ClipIndex => ({
  ...index,
  frames: index.frames.filter((_, at) => at !== place),
});
const clipOf = (book: Book, clipId: string) => {
  const clip = book.openSwing(book.findClip(clipId).swingId).clips[0];
  if (clip === undefined) throw new Error('no clip');
  return clip;
};

test('a clip comes in unsettled, and is settled once its table was held against a decode', async () => {
  const { book, clipId, index } = await markedClip();
  expect(book.isSettled(clipId)).toBe(false);
  expect(book.settleClip(clipId, index)).toBe(false);
  expect(book.isSettled(clipId)).toBe(true);
  expect(book.clipIndex(clipId)).toEqual(index);
});

test('names and marks stay on their pictures when frames before them turn out to be none', async () => {
  const { book, clipId, index } = await markedClip();
  expect(book.settleClip(clipId, without(index, 0))).toBe(true);
  const clip = clipOf(book, clipId);
  expect(clip.frameCount).toBe(4);
  expect(clip.checkpoints.top).toMatchObject({ index: 2, pts: sampleFrame(3).pts });
  expect(clip.marks.map(({ frame, points }) => [frame, points.tailbone?.x])).toEqual([
    [{ index: 0, pts: sampleFrame(1).pts }, 1.25],
    [{ index: 2, pts: sampleFrame(3).pts }, 3.25],
  ]);
  // And they can be saved again under their new numbers.
  book.saveMarks(clipId, { frame: { index: 2, pts: sampleFrame(3).pts }, points: {}, shapes: [] });
  expect(clipOf(book, clipId).marks).toHaveLength(1);
});

test('a frame that something hangs on is never lost: it counts as damaged', async () => {
  const { book, clipId, index } = await markedClip();
  book.settleClip(clipId, without(without(index, 3), 2));
  const settled = book.clipIndex(clipId);
  expect(settled.frames.map(({ pts }) => pts)).toEqual([0, 1, 3, 4].map((frame) => sampleFrame(frame).pts));
  expect(settled.damage).toEqual([{ from: 2, to: 2 }]);
  expect(clipOf(book, clipId).checkpoints.top?.index).toBe(2);
});

test('what was placed while the numbers changed lands on its picture; a name that never was is refused still', async () => {
  const { book, clipId, index } = await markedClip();
  book.settleClip(clipId, without(index, 0));
  const points = { ball: { x: 7, y: 8, hidden: false } };
  // Frame 4 and frame 3 by their numbers from before: there are four frames now.
  book.saveMarks(clipId, { frame: sampleFrame(4), points, shapes: [] });
  expect(book.setCheckpoint(clipId, 'impact', sampleFrame(2))).toEqual({ ...sampleFrame(2), index: 1, ticks: 3004 });
  const clip = clipOf(book, clipId);
  expect(clip.marks.map(({ frame }) => frame.index)).toEqual([0, 2, 3]);
  expect(clip.marks[2]).toEqual({ frame: { index: 3, pts: sampleFrame(4).pts }, points, shapes: [] });
  for (const frame of [sampleFrame(0), { index: 1, pts: sampleFrame(4).pts }, { index: 9, pts: 0 }])
    expectThrown(() => book.setCheckpoint(clipId, 'finish', frame), 'bad-request');
});

test('a name on a frame follows how long the frame is shown now', async () => {
  const { book, clipId, index } = await markedClip();
  book.settleClip(clipId, without(index, 4));
  expect(book.clipIndex(clipId).frames).toHaveLength(4);
  book.setCheckpoint(clipId, 'finish', sampleFrame(2));
  expect(clipOf(book, clipId).checkpoints.finish?.ticks).toBe(index.frames[2]?.ticks);
});

test('a settled table that does not fit changes nothing', async () => {
  const { book, clipId, index } = await markedClip();
  const wrong = { ...index, damage: [{ from: 4, to: 5 }] };
  expectThrown(() => book.settleClip(clipId, wrong), 'bad-request', /damage within its frames/);
  expect(book.isSettled(clipId)).toBe(false);
  expect(book.clipIndex(clipId)).toEqual(index);
});

test('frames that the table did not list move the others on, also by one', async () => {
  const { book, clipId, index } = await markedClip();
  const [first] = index.frames;
  if (first === undefined) throw new Error('no frame');
  const before = { ...first, pts: first.pts - 5, ticks: 5 };
  expect(book.settleClip(clipId, { ...index, frames: [before, ...index.frames] })).toBe(true);
  expect(clipOf(book, clipId).marks.map(({ frame }) => frame.index)).toEqual([2, 4]);
});

test('an unknown clip is refused', () => {
  const book = newBook();
  expect(() => book.isSettled('0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10')).toThrow(/clip/);
});
