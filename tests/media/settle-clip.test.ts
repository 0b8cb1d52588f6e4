import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { Book } from '../../core/book/book.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { settleClip } from '../../core/jobs/settle-clip.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const GROUP = 24;

afterAll(() => {
  expect(runningCount()).toBe(0);
});

/** A clip whose last third is not there, brought into a new book by its own table, with a name on one of its frames. */
async function cutClip(): Promise<{ book: Book; clipId: string; path: string; times: number[] }> {
  const folder = temporaryFolder();
  const [whole, path] = [join(folder, 'whole.mp4'), join(folder, 'cut.mp4')];
  const h264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', String(GROUP)];
  makeCodedClip(ffmpeg, 72, '30', [...h264, '-movflags', '+faststart', whole]);
  const bytes = readFileSync(whole);
  writeFileSync(path, bytes.subarray(0, Math.floor(bytes.length * 0.7)));
  const book = newBook();
  const { swing } = addSample(book);
  const { id } = await importClip(
    book,
    { swingId: swing.id, view: 'face-on', path, stored: 'copied' },
    ffmpeg,
    UNWATCHED,
  );
  const times = book.clipIndex(id).frames.map(({ pts }) => pts);
  book.setCheckpoint(id, 'top', { index: 30, pts: times[30] ?? NaN });
  return { book, clipId: id, path, times };
}

it('a damaged clip keeps every number when it is settled, and is then as the command line reads it', async () => {
  const { book, clipId, path, times } = await cutClip();
  const read = await readClipIndex(path, { ffmpeg, verify: true });
  const delivered = times.slice(0, -1);
  const settled = await settleClip(book, clipId, { delivered, errors: true }, { ffmpeg });
  const index = book.clipIndex(clipId);
  expect(settled).toEqual({
    changed: false,
    damaged: read.damage.reduce((sum, { from, to }) => sum + to - from + 1, 0),
  });
  expect(index).toEqual(read);
  expect(isDamaged(index, times.length - 1)).toBe(true);
  expect(isDamaged(index, GROUP)).toBe(false);
  // Once is enough: a later pass over the same bytes changes nothing.
  expect(await settleClip(book, clipId, { delivered: [], errors: false }, { ffmpeg })).toBeNull();
  expect(book.clipIndex(clipId)).toEqual(index);
});

it('a pass that delivers nothing leaves the table and doubts all of it', async () => {
  const { book, clipId, times } = await cutClip();
  const settled = await settleClip(book, clipId, { delivered: [], errors: true }, { ffmpeg });
  expect(settled).toEqual({ changed: false, damaged: times.length });
  expect(book.clipIndex(clipId).damage).toEqual([{ from: 0, to: times.length - 1 }]);
});

it('without complaints the decode wins, and the name stays on its picture', async () => {
  const { book, clipId, times } = await cutClip();
  const settled = await settleClip(book, clipId, { delivered: times.slice(3), errors: false }, { ffmpeg });
  expect(settled).toEqual({ changed: true, damaged: 0 });
  const [clip] = book.openSwing(book.findClip(clipId).swingId).clips;
  expect(clip?.checkpoints.top).toMatchObject({ index: 27, pts: times[30] });
});

it('a search that is cancelled stores nothing', async () => {
  const { book, clipId } = await cutClip();
  const before = book.clipIndex(clipId);
  const signal = AbortSignal.abort();
  await expectRefused(settleClip(book, clipId, { delivered: [], errors: true }, { ffmpeg, signal }), 'cancelled');
  expect(book.clipIndex(clipId)).toEqual(before);
  expect(book.isSettled(clipId)).toBe(false);
});
