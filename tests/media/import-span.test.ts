import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Book } from '../../core/book/book.ts';
import { clipPath, relinkClip } from '../../core/book/media.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { inspectClip } from '../../core/jobs/inspect-clip.ts';
import type { FrameSpan } from '../../core/model/frame.ts';
import { fileJobCount } from '../../core/video/process/file-job.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

let ffmpeg: Ffmpeg;
beforeAll(async () => {
  ffmpeg = await findFfmpeg();
});

/** 300 coded pictures, a key picture every 50. */
function longClip(name = 'Range, Tuesday.MP4'): string {
  const path = join(temporaryFolder(), name);
  const args = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '50'];
  makeCodedClip(ffmpeg, 300, '30', [...args, path]);
  return path;
}

const order = (swingId: string, path: string, span: FrameSpan | null) =>
  ({ swingId, path, view: 'face-on', stored: 'copied', span }) as const;
const digest = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');

function expectUntouched(book: Book, swingId: string): void {
  expect(book.openSwing(swingId).clips).toEqual([]);
  expect(readdirSync(join(book.folder, 'media'))).toEqual([]);
  expect([runningCount(), fileJobCount()]).toEqual([0, 0]);
}

describe('a part of a clip', () => {
  it('is a clip of the book like any other, under the name of the whole, which is only read', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const before = { sha256: digest(path), modified: statSync(path).mtimeMs };
    const told = new Map<string, number[]>();
    const report = (label: string, done: number): void => void told.set(label, [...(told.get(label) ?? []), done]);
    const run = { ...UNWATCHED, report };
    const clip = await importClip(book, order(swing.id, path, { from: 120, to: 199 }), ffmpeg, run);

    expect(clip).toMatchObject({ originalName: 'Range, Tuesday.MP4', stored: 'copied', kept: { first: 100, of: 300 } });
    const file = await clipPath(book, clip.id);
    expect(readdirSync(join(book.folder, 'media'))).toEqual([`${clip.sha256}.mp4`]);
    expect(digest(file)).toBe(clip.sha256);
    const codes = decodedCodes(ffmpeg, file);
    expect(codes).toEqual(Array.from({ length: clip.frameCount }, (_, at) => 100 + at));
    expect(codes.at(-1)).toBeGreaterThanOrEqual(199);
    expect(book.clipIndex(clip.id).frames).toHaveLength(clip.frameCount);
    // Each step is told, and none of them stands still: pictures are counted as they are checked.
    expect([...told.keys()].slice(1, 3)).toEqual(['Taking the swing out of the clip', 'Checking the pictures']);
    const checked = told.get('Checking the pictures') ?? [];
    expect(checked).toEqual([...checked].sort((a, b) => a - b));
    expect(new Set(checked).size).toBeGreaterThan(3);
    expect(before).toEqual({ sha256: digest(path), modified: statSync(path).mtimeMs });
  });

  it('and another part of it may be two swings', async () => {
    const book = newBook();
    const { swing, lesson } = addSample(book);
    const path = longClip();
    const other = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    await importClip(book, order(swing.id, path, { from: 0, to: 20 }), ffmpeg, UNWATCHED);
    const second = await importClip(book, order(other.id, path, { from: 250, to: 299 }), ffmpeg, UNWATCHED);
    expect(second).toMatchObject({ frameCount: 50, kept: { first: 250, of: 300 } });
  });

  it('of which the file is lost cannot be had from the whole', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const clip = await importClip(book, order(swing.id, path, { from: 120, to: 199 }), ffmpeg, UNWATCHED);
    rmSync(await clipPath(book, clip.id));
    await expectRefused(clipPath(book, clip.id), 'clip-moved');
    await expectRefused(relinkClip(book, clip.id, path), 'clip-changed', /kept only a part/);
  });

  it('is refused with nothing left when it shall be linked, lies outside, or is there already', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const span = { from: 0, to: 10 };
    const linked = { ...order(swing.id, path, span), stored: 'linked' } as const;
    await expectRefused(importClip(book, linked, ffmpeg, UNWATCHED), 'bad-request', /always copied into the book/);
    for (const bad of [
      { from: 10, to: 9 },
      { from: 0, to: 300 },
    ])
      await expectRefused(importClip(book, order(swing.id, path, bad), ffmpeg, UNWATCHED), 'bad-request', /0 to 299/);
    expectUntouched(book, swing.id);

    await importClip(book, order(swing.id, path, span), ffmpeg, UNWATCHED);
    const again = { ...order(swing.id, path, span), view: 'down-the-line' } as const;
    await expectRefused(importClip(book, again, ffmpeg, UNWATCHED), 'bad-request', /already, as "Face on"/);
    expect(readdirSync(join(book.folder, 'media'))).toHaveLength(1);
  });

  it('is cancelled at whatever step, with nothing left', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const seen = new Set<string>();
    const report = (label: string): void => void seen.add(label);
    const clip = await importClip(book, order(swing.id, path, { from: 99, to: 120 }), ffmpeg, { ...UNWATCHED, report });
    book.removeClip(clip.id);
    expect(seen.size).toBeGreaterThanOrEqual(3);
    for (const at of seen) {
      const stop = new AbortController();
      const run = { signal: stop.signal, report: (label: string): void => (label === at ? stop.abort() : undefined) };
      await expectRefused(importClip(book, order(swing.id, path, { from: 99, to: 120 }), ffmpeg, run), 'cancelled');
      expectUntouched(book, swing.id);
    }
  });
});

describe('a look at a clip', () => {
  it('tells its size before it is added', async () => {
    const path = longClip();
    const { look } = await inspectClip(path, ffmpeg);
    expect(look).toMatchObject({ frameCount: 300, seconds: 10, width: 192, height: 128, long: false });
    expect(look.bytes).toBe(statSync(path).size);
    await expectRefused(inspectClip(import.meta.filename, ffmpeg), 'not-a-clip');
  });
});
