import { existsSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Book } from '../../core/book/book.ts';
import { clipPath } from '../../core/book/media.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import type { View } from '../../core/model/words.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

let ffmpeg: Ffmpeg;
beforeAll(async () => {
  ffmpeg = await findFfmpeg();
});

async function newClip(name: string, frames = 12): Promise<string> {
  const out = join(temporaryFolder(), name);
  await makeGreyClip({ ffmpeg, out, frames });
  return out;
}

const order = (swingId: string, path: string, view: View = 'face-on') =>
  ({ swingId, path, view, stored: 'copied' }) as const;

/** What must hold after an import that was refused or cancelled. */
function expectUntouched(book: Book, swingId: string, clips = 0): void {
  expect(book.openSwing(swingId).clips).toHaveLength(clips);
  expect(readdirSync(join(book.folder, 'media'))).toHaveLength(clips);
  expect(runningCount()).toBe(0);
}

describe('an imported clip', () => {
  it('is in the book with every frame, and the file it came from may go', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = await newClip('my swing.mp4', 12);
    const labels = new Set<string>();
    const run = { ...UNWATCHED, report: (label: string) => void labels.add(label) };
    const clip = await importClip(book, order(swing.id, path), ffmpeg, run);
    expect(clip).toMatchObject({ originalName: 'my swing.mp4', frameCount: 12, view: 'face-on', width: 320 });
    expect(labels).toEqual(new Set(['Reading the table of frames', 'Copying the clip']));
    renameSync(path, `${path}.gone`);
    expect(existsSync(await clipPath(book, clip.id))).toBe(true);
    expect(book.clipIndex(clip.id).frames).toHaveLength(12);
  });

  it('that is linked stays where it is', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = await newClip('swing.mp4');
    const clip = await importClip(book, { ...order(swing.id, path), stored: 'linked' }, ffmpeg, UNWATCHED);
    expect(await clipPath(book, clip.id)).toBe(path);
    expect(readdirSync(join(book.folder, 'media'))).toEqual([]);
  });
});

describe('an import into a swing that is removed meanwhile', () => {
  /** Removes the swing while its clip is copied. */
  const removing = (book: Book, swingId: string) => ({
    ...UNWATCHED,
    report: (label: string, done: number, total: number | null) => {
      if (label === 'Copying the clip' && done === total) book.removeSwing(swingId);
    },
  });

  it('says so and leaves no file in the media folder', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const importing = importClip(book, order(swing.id, await newClip('a.mp4')), ffmpeg, removing(book, swing.id));
    await expectRefused(importing, 'no-such-record');
    expect(readdirSync(join(book.folder, 'media'))).toEqual([]);
  });

  it('leaves the file to another swing that uses it', async () => {
    const book = newBook();
    const { swing, lesson } = addSample(book);
    const path = await newClip('a.mp4');
    const kept = await importClip(book, order(swing.id, path), ffmpeg, UNWATCHED);
    const gone = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    await expectRefused(importClip(book, order(gone.id, path), ffmpeg, removing(book, gone.id)), 'no-such-record');
    expect(existsSync(await clipPath(book, kept.id))).toBe(true);
  });

  it('never deletes a linked file', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = await newClip('a.mp4');
    const report = (label: string, done: number, total: number | null): void => {
      if (label === 'Reading the clip' && done === total) book.removeSwing(swing.id);
    };
    const linked = { ...order(swing.id, path), stored: 'linked' } as const;
    await expectRefused(importClip(book, linked, ffmpeg, { ...UNWATCHED, report }), 'no-such-record');
    expect(existsSync(path)).toBe(true);
  });
});

describe('an import is refused, with nothing copied,', () => {
  it('for a view that has a clip', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    await importClip(book, order(swing.id, await newClip('a.mp4')), ffmpeg, UNWATCHED);
    const second = await newClip('b.mp4', 13);
    await expectRefused(importClip(book, order(swing.id, second), ffmpeg, UNWATCHED), 'bad-request', /Face on/);
    expectUntouched(book, swing.id, 1);
  });

  it('for the same clip as the other view of the swing, but not of another swing', async () => {
    const book = newBook();
    const { swing, lesson } = addSample(book);
    const path = await newClip('a.mp4');
    await importClip(book, order(swing.id, path), ffmpeg, UNWATCHED);
    const again = importClip(book, order(swing.id, path, 'down-the-line'), ffmpeg, UNWATCHED);
    await expectRefused(again, 'bad-request', /already, as "Face on"/);
    expectUntouched(book, swing.id, 1);
    const other = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    await importClip(book, order(other.id, path), ffmpeg, UNWATCHED);
    expectUntouched(book, other.id, 1);
  });

  it('for a swing that is not there', async () => {
    const book = newBook();
    addSample(book);
    const nowhere = order('0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10', await newClip('a.mp4'));
    await expectRefused(importClip(book, nowhere, ffmpeg, UNWATCHED), 'no-such-record');
  });

  it('for files that are no clip', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const folder = temporaryFolder();
    const empty = join(folder, 'empty.mp4');
    const text = join(folder, 'text.mp4');
    writeFileSync(empty, '');
    writeFileSync(text, 'This is not a clip.\n'.repeat(100));
    const refused = (path: string) => importClip(book, order(swing.id, path), ffmpeg, UNWATCHED);
    await expectRefused(refused(empty), 'file-empty');
    await expectRefused(refused(text), 'not-a-clip');
    await expectRefused(refused(join(folder, 'absent.mp4')), 'file-not-found');
    await expectRefused(refused(folder), 'file-unreadable');
    expectUntouched(book, swing.id);
  });

  it('when it is cancelled, at whatever step', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = await newClip('a.mp4');
    for (const at of ['Reading the table of frames', 'Copying the clip']) {
      const stop = new AbortController();
      const report = (label: string): void => {
        if (label === at) stop.abort();
      };
      const run = { signal: stop.signal, report };
      await expectRefused(importClip(book, order(swing.id, path), ffmpeg, run), 'cancelled');
      expectUntouched(book, swing.id);
    }
  });
});
