import { createHash } from 'node:crypto';
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { noteArrival } from '../../core/book/arrivals.ts';
import type { Book } from '../../core/book/book.ts';
import { clipPath, relinkClip, wholePath } from '../../core/book/media.ts';
import { openBook } from '../../core/book/open-book.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import type { JobContext } from '../../core/jobs/job-context.ts';
import { addPart, keepPart, type PartOrder } from '../../core/jobs/keep-part.ts';
import { inspectClip } from '../../core/jobs/inspect-clip.ts';
import type { Clip } from '../../core/model/book.ts';
import type { FrameSpan } from '../../core/model/frame.ts';
import { fileJobCount } from '../../core/video/process/file-job.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { onSmallDisk } from '../support/small-disk.ts';
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

const order = (swingId: string, path: string, span: FrameSpan) => ({ swingId, path, view: 'face-on', span }) as const;
/** A clip as whoever asks for it knows it. */
const known = ({ id, kept }: Clip) => ({ id, first: kept?.first ?? 0 });
/** Adds a part and takes it at once. */
async function importPart(book: Book, part: PartOrder, run: JobContext = UNWATCHED): Promise<Clip> {
  const { id } = await keepPart(book, known(await addPart(book, part, ffmpeg, run)), ffmpeg, run);
  return book.findClip(id);
}
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
    const clip = await importPart(book, order(swing.id, path, { from: 120, to: 199 }), run);

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
    await importPart(book, order(swing.id, path, { from: 0, to: 20 }));
    const second = await importPart(book, order(other.id, path, { from: 250, to: 299 }));
    expect(second).toMatchObject({ frameCount: 50, kept: { first: 250, of: 300 } });
  });

  it('of which the file is lost cannot be had from the whole', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const clip = await importPart(book, order(swing.id, path, { from: 120, to: 199 }));
    rmSync(await clipPath(book, clip.id));
    await expectRefused(clipPath(book, clip.id), 'clip-moved');
    await expectRefused(relinkClip(book, clip.id, path), 'clip-changed', /kept only a part/);
  });

  it('is refused with nothing left when it lies outside; one that is there already stays as it came', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const span = { from: 0, to: 10 };
    for (const bad of [
      { from: 10, to: 9 },
      { from: 0, to: 300 },
    ])
      await expectRefused(importPart(book, order(swing.id, path, bad)), 'bad-request', /0 to 299/);
    expectUntouched(book, swing.id);

    await importPart(book, order(swing.id, path, span));
    const again = { ...order(swing.id, path, span), view: 'down-the-line' } as const;
    await expectRefused(importPart(book, again), 'bad-request', /already, as "Face on"/);
    expect(readdirSync(join(book.folder, 'media'))).toHaveLength(1);
  });

  it('is cancelled at whatever step: before it is in the book with nothing left, later it is coming still', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip();
    const seen = new Set<string>();
    const report = (label: string): void => void seen.add(label);
    const clip = await importPart(book, order(swing.id, path, { from: 99, to: 120 }), { ...UNWATCHED, report });
    book.removeClip(clip.id);
    expect(seen.size).toBeGreaterThanOrEqual(3);
    for (const at of seen) {
      const stop = new AbortController();
      const run = { signal: stop.signal, report: (label: string): void => (label === at ? stop.abort() : undefined) };
      await expectRefused(importPart(book, order(swing.id, path, { from: 99, to: 120 }), run), 'cancelled');
      for (const { coming, id } of book.openSwing(swing.id).clips) {
        expect(coming).toBe(true);
        book.removeClip(id);
      }
      expectUntouched(book, swing.id);
    }
  });
});

describe('a part that is coming', () => {
  const points = { ball: { x: 7, y: 8, hidden: false } };
  /** A part in the book that is still to be taken, with a name and a point on what shows picture 150. */
  async function coming(name?: string) {
    const book = newBook();
    const { swing } = addSample(book);
    const path = longClip(name);
    const clip = await addPart(book, order(swing.id, path, { from: 120, to: 199 }), ffmpeg, UNWATCHED);
    mark(book, clip, 150 - (clip.kept?.first ?? 0));
    return { book, swing, path, clip };
  }
  function mark(book: Book, { id }: Clip, place: number): void {
    const frame = { index: place, pts: book.clipIndex(id).frames[place]?.pts ?? 0 };
    book.setCheckpoint(id, 'top', frame);
    book.saveMarks(id, { frame, points, shapes: [] });
  }
  const marked = (book: Book, { swingId }: Clip) => {
    const [clip] = book.openSwing(swingId).clips;
    if (clip === undefined) throw new Error('no clip');
    return { clip, top: clip.checkpoints.top?.index, marks: clip.marks.map(({ frame }) => frame) };
  };

  it('has its numbers at once, and the very same once it is taken', async () => {
    const { book, path, clip } = await coming();
    expect(clip).toMatchObject({ coming: true, stored: 'linked', kept: { first: 100, of: 300 } });
    expect(await wholePath(book, clip.id)).toBe(path);
    await expectRefused(clipPath(book, clip.id), 'clip-coming', /still being taken out of .*Try again/);
    expect(book.comingClips()).toEqual([clip.id]);
    const before = book.clipIndex(clip.id).frames;
    expect(await keepPart(book, known(clip), ffmpeg, UNWATCHED)).toEqual({ id: clip.id, shift: 0, whole: false });
    expect(book.clipIndex(clip.id).frames).toEqual(before);
    expect(marked(book, clip)).toMatchObject({ top: 50, marks: [{ index: 50 }] });
    expect(decodedCodes(ffmpeg, await clipPath(book, clip.id))[50]).toBe(150);
    expect(book.comingClips()).toEqual([]);
    expect(await keepPart(book, known(clip), ffmpeg, UNWATCHED)).toEqual({ id: clip.id, shift: 0, whole: false });
  });

  it('is waited for by whoever needs its file', async () => {
    const { book, clip } = await coming();
    const taken = keepPart(book, known(clip), ffmpeg, UNWATCHED).then(({ id }) => id);
    noteArrival(book.database, clip.id, taken);
    expect(decodedCodes(ffmpeg, await clipPath(book, clip.id))[0]).toBe(100);
  });

  it('that must begin earlier moves all numbers, and nothing leaves its picture, nor what is under way', async () => {
    const book = newBook();
    const { swing, lesson } = addSample(book);
    const path = join(temporaryFolder(), 'refresh.mp4');
    ILL_CLIPS.find(({ file }) => file === 'refresh.mp4')?.make(ffmpeg, path, '');
    const clip = await addPart(book, order(swing.id, path, { from: 45, to: 47 }), ffmpeg, UNWATCHED);
    const first = clip.kept?.first ?? 0;
    expect(first).toBeGreaterThan(0);
    const at = (picture: number) => {
      const { pts = 0, ticks = 1 } = book.clipIndex(clip.id).frames[picture - first] ?? {};
      return { index: picture - first, pts, ticks };
    };
    const name = (checkpoint: 'top' | 'impact', after: ReturnType<typeof at>, before: typeof after | null = null) =>
      ({
        does: 'make',
        edit: { kind: 'checkpoint', swingId: swing.id, clipId: clip.id, checkpoint, before, after },
      }) as const;
    mark(book, clip, 46 - first);
    const [top, impact] = [name('top', at(44), at(46)), name('impact', at(47))];
    book.writeEdit(top);

    const kept = await keepPart(book, known(clip), ffmpeg, UNWATCHED);
    expect(kept).toMatchObject({ shift: first, whole: false });
    // Number and time of what is under way are those of another picture now.
    const { frames } = book.clipIndex(kept.id);
    expect(frames[impact.edit.after.index]?.pts).toBe(impact.edit.after.pts);
    book.writeEdit(impact);
    expect(marked(book, clip)).toMatchObject({ clip: { kept: { first: 0 } }, top: 44, marks: [{ index: 46 }] });
    expect(marked(book, clip).clip.checkpoints.impact?.index).toBe(47);
    for (const { does, edit } of [impact, top]) {
      expect(does).toBe('make');
      book.writeEdit({ does: 'undo', lessonId: lesson.id, edit });
    }
    expect(marked(book, clip).clip.checkpoints).toEqual({
      top: { index: 46, pts: frames[46]?.pts, ticks: frames[46]?.ticks },
    });
    expect(decodedCodes(ffmpeg, await clipPath(book, kept.id))[46]).toBe(decodedCodes(ffmpeg, path)[46]);
    // Whoever knows it by its earlier name only is told where it is.
    expect(await keepPart(book, known(clip), ffmpeg, UNWATCHED)).toEqual(kept);
  });

  it('of a clip that cannot be cut after all is the whole clip, and nothing leaves its picture', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const path = join(temporaryFolder(), 'refresh.mp4');
    // Pictures that are refreshed little by little: none of those that its file calls key pictures stands by itself.
    const refresh = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-x264-params', 'intra-refresh=1:keyint=20:bframes=0'];
    makeCodedClip(ffmpeg, 160, '30', [...refresh, path]);
    const clip = await addPart(book, order(swing.id, path, { from: 150, to: 159 }), ffmpeg, UNWATCHED);
    const guessed = clip.kept?.first ?? 0;
    mark(book, clip, 155 - guessed);
    const kept = await keepPart(book, known(clip), ffmpeg, UNWATCHED);
    expect(kept).toMatchObject({ shift: guessed, whole: true });
    expect(marked(book, clip)).toMatchObject({
      clip: { kept: null, frameCount: 160 },
      top: 155,
      marks: [{ index: 155 }],
    });
    expect(digest(await clipPath(book, kept.id))).toBe(digest(path));
  });

  it('of which the whole was moved says so, loses nothing, and is taken from where the coach shows it', async () => {
    const { book, path, clip } = await coming();
    const elsewhere = join(temporaryFolder(), 'Tuesday.MP4');
    renameSync(path, elsewhere);
    await expectRefused(keepPart(book, known(clip), ffmpeg, UNWATCHED), 'clip-moved', /Put it back there, or show/);
    expect(marked(book, clip)).toMatchObject({ clip: { coming: true }, top: 50 });
    const other = longClip('other.MP4');
    writeFileSync(other, readFileSync(elsewhere).fill(0, 0, 100));
    await expectRefused(relinkClip(book, clip.id, other), 'clip-changed', /its content differs/);
    await relinkClip(book, clip.id, elsewhere);
    await keepPart(book, known(clip), ffmpeg, UNWATCHED);
    expect(decodedCodes(ffmpeg, await clipPath(book, clip.id))[50]).toBe(150);
  });

  it('and was put into the bin meanwhile is taken once it is back', async () => {
    const { book, clip } = await coming();
    const entry = book.moveToBin('clip', clip.id, '2026-05-12T10:00:00Z');
    await expectRefused(keepPart(book, known(clip), ffmpeg, UNWATCHED), 'no-such-record');
    book.putBack(entry.id);
    await keepPart(book, known(clip), ffmpeg, UNWATCHED);
    expect(marked(book, clip)).toMatchObject({ top: 50, marks: [{ index: 50 }] });
  });

  it.each(['Taking the swing out of the clip', 'Checking the pictures'])(
    'when the program is killed at "%s" it is coming still, with all that was marked, and is taken after that',
    async (at) => {
      const folder = temporaryFolder();
      const path = longClip();
      const child = fileURLToPath(new URL('children/keep-until-killed.ts', import.meta.url));
      const { signal, stdout } = spawnSync(process.execPath, [child, folder, path, at], { encoding: 'utf8' });
      expect(signal).toBe('SIGKILL');
      const book = openBook(folder);
      onTestFinished(() => book.close());
      const [id = ''] = book.comingClips();
      expect(stdout).toContain(id);
      await keepPart(book, known(book.findClip(id)), ffmpeg, UNWATCHED);
      const clip = book.findClip(id);
      expect(readdirSync(join(folder, 'media'))).toEqual([`${clip.sha256}.mp4`]);
      const { top } = marked(book, clip);
      expect(decodedCodes(ffmpeg, await clipPath(book, id))[top ?? -1]).toBe(150);
    },
  );

  it('when the disk is full it is coming still, with all that was marked', () => {
    const folder = temporaryFolder();
    const path = join(folder, 'large.mp4');
    // More than the 2 MB of the disk.
    makeCodedClip(ffmpeg, 40, '30', [
      ...['-vf', 'scale=768:512,noise=alls=60:allf=t', '-c:v', 'libx264', '-qp', '4', '-preset', 'ultrafast', path],
    ]);
    expect(statSync(path).size).toBeGreaterThan(3_000_000);
    const child = join(import.meta.dirname, 'children', 'part-on-full-disk.ts');
    expect(JSON.parse(onSmallDisk(child, join(folder, 'disk'), path))).toEqual({
      ...{ said: expect.stringMatching(/^disk-full: The disk is full: .*Make room/), coming: true, top: 7, left: [] },
    });
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
