import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { saveStills, type StillsOrder } from '../../core/jobs/save-stills.ts';
import { swingOfBook, type SwingSource } from '../../core/jobs/swing-source.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { runningEncoders } from '../../core/sheet/still-encoder.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { frameOfGrey, makeGreyClip } from '../support/grey-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

let ffmpeg: Ffmpeg;
beforeAll(async () => {
  ffmpeg = await findFfmpeg();
});

/** A swing in a book of its own whose one clip has these frames named. */
async function swingWith(named: Readonly<Partial<Record<Checkpoint, number>>>): Promise<SwingSource> {
  const book = newBook();
  const { swing } = addSample(book);
  const path = join(temporaryFolder(), 'swing.mp4');
  await makeGreyClip({ ffmpeg, out: path, frames: 20 });
  const order = { swingId: swing.id, path, view: 'face-on', stored: 'linked' } as const;
  const clip = await importClip(book, order, ffmpeg, UNWATCHED);
  const { frames } = book.clipIndex(clip.id);
  for (const checkpoint of ['address', 'top', 'impact'] as const) {
    const index = named[checkpoint];
    const pts = index === undefined ? undefined : frames[index]?.pts;
    if (index !== undefined && pts !== undefined) book.setCheckpoint(clip.id, checkpoint, { index, pts });
  }
  return swingOfBook(book, swing.id);
}

function order(now: SwingSource, changed: Partial<StillsOrder> = {}): StillsOrder {
  return {
    ...{ now, then: null, checkpoints: ['address', 'top', 'impact'], views: ['face-on'], goals: SHIPPED_GOALS },
    ...{ layout: 'mail', format: 'png', width: 900, folder: join(temporaryFolder(), 'stills'), existing: 'refuse' },
    ...changed,
  };
}

/** The frames that a still shows, from left to right: the grey that fills most of each of `panels` equal columns. */
function framesShown(path: string, panels: number): (number | null)[] {
  const { width, height, data } = PNG.sync.read(readFileSync(path));
  return Array.from({ length: panels }, (_, panel) => {
    const counts = new Map<number, number>();
    const x = Math.round(((panel + 0.5) * width) / panels);
    for (let y = 0; y < height; y++) {
      const grey = data[(y * width + x) * 4] ?? 255;
      if (grey < 250) counts.set(grey, (counts.get(grey) ?? 0) + 1);
    }
    const [most] = [...counts].sort((a, b) => b[1] - a[1]);
    return most === undefined ? null : frameOfGrey(most[0]);
  });
}

describe('saved stills', () => {
  it('show exactly the named frames, in the order asked for', async () => {
    const now = await swingWith({ address: 2, top: 9, impact: 14 });
    const [still] = await saveStills(order(now, { checkpoints: ['impact', 'address', 'top'] }), ffmpeg, UNWATCHED);
    expect(still?.width).toBe(900);
    expect(framesShown(still?.path ?? '', 3)).toEqual([14, 2, 9]);
  });

  it('of then and now stand side by side, one file a checkpoint', async () => {
    const now = await swingWith({ address: 2, top: 9 });
    const then = await swingWith({ address: 5, top: 17 });
    const stills = await saveStills(order(now, { then, checkpoints: ['address', 'top'] }), ffmpeg, UNWATCHED);
    expect(stills.map(({ path }) => framesShown(path, 2))).toEqual([
      [5, 2],
      [17, 9],
    ]);
  });

  it('replace nothing: a taken name is refused, or the new one gets a number', async () => {
    const now = await swingWith({ address: 2 });
    const wanted = order(now, { checkpoints: ['address'], format: 'jpeg' });
    const [first] = await saveStills(wanted, ffmpeg, UNWATCHED);
    writeFileSync(first?.path ?? '', 'kept');
    await expectRefused(saveStills(wanted, ffmpeg, UNWATCHED), 'file-exists');
    for (const number of [2, 3]) {
      const [next] = await saveStills({ ...wanted, existing: 'number' }, ffmpeg, UNWATCHED);
      expect(next?.path.endsWith(`-${number}.jpg`)).toBe(true);
    }
    expect(readFileSync(first?.path ?? '', 'utf8')).toBe('kept');
    const [replaced] = await saveStills({ ...wanted, existing: 'replace' }, ffmpeg, UNWATCHED);
    expect(replaced?.path).toBe(first?.path);
    expect(readFileSync(first?.path ?? '').subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
  });

  it('of two formats are numbered each on their own, and every file is of the format its name says', async () => {
    const now = await swingWith({ address: 2 });
    const wanted = order(now, { checkpoints: ['address'], existing: 'number' });
    for (const format of ['png', 'jpeg', 'jpeg', 'png', 'png'] as const)
      await saveStills({ ...wanted, format }, ffmpeg, UNWATCHED);
    const begins = (name: string): string => readFileSync(join(wanted.folder, name)).subarray(0, 2).toString('hex');
    const pictures = readdirSync(wanted.folder).filter((name) => !name.endsWith('.txt'));
    const found = pictures.map((name) => [name.replace(/^.*address/, ''), begins(name)]);
    // The first two bytes of a PNG and of a JPEG file.
    expect(Object.fromEntries(found)).toEqual({
      ...{ '.png': '8950', '-2.png': '8950', '-3.png': '8950' },
      ...{ '.jpg': 'ffd8', '-2.jpg': 'ffd8' },
    });
  });

  it('have their text beside them, under their own name, whatever stands there', async () => {
    const now = await swingWith({ address: 2 });
    const wanted = order(now, { checkpoints: ['address'], existing: 'number', layout: 'phone' });
    const [first] = await saveStills(wanted, ffmpeg, UNWATCHED);
    expect([first?.width, first?.height]).toEqual([1080, 1350]);
    expect(first?.textPath).toBe(`${first?.path ?? ''}.txt`);
    expect(readFileSync(first?.textPath ?? '', 'utf8')).toMatch(/^Address, face on\.\nPicture: Robin at address/);
    // A text that somebody kept without its picture takes the name too.
    rmSync(first?.path ?? '');
    const [next] = await saveStills(wanted, ffmpeg, UNWATCHED);
    expect(next?.path).toMatch(/-2\.png$/);
    expect(readdirSync(wanted.folder)).toHaveLength(3);
  });

  it('are all there or none: one taken name takes back those written before it', async () => {
    const now = await swingWith({ address: 2, top: 9 });
    const then = await swingWith({ address: 5, top: 17 });
    const wanted = order(now, { then, checkpoints: ['address', 'top'] });
    const [, second] = await saveStills(wanted, ffmpeg, UNWATCHED);
    const folder = temporaryFolder();
    writeFileSync(second?.path.replace(wanted.folder, folder) ?? '', 'taken');
    await expectRefused(saveStills({ ...wanted, folder }, ffmpeg, UNWATCHED), 'file-exists');
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('stop when cancelled and leave nothing', async () => {
    const now = await swingWith({ address: 2, top: 9, impact: 14 });
    const wanted = order(now, { folder: temporaryFolder() });
    for (const after of [0, 1, 3]) {
      const stop = new AbortController();
      const report = (_label: string, done: number): void => {
        if (done === after) stop.abort();
      };
      await expectRefused(saveStills(wanted, ffmpeg, { signal: stop.signal, report }), 'cancelled');
      expect(readdirSync(wanted.folder)).toEqual([]);
      // The one that gave the last picture was told to end; that takes a moment.
      await expect.poll(runningCount).toBe(0);
    }
  });

  it('stop within a still when cancelled there, and no thread stays; nor after success or trouble', async () => {
    const now = await swingWith({ address: 2 });
    const wanted = order(now, { checkpoints: ['address'], width: 4000, folder: temporaryFolder() });
    const stop = new AbortController();
    // The picture is read; what comes next is the thread's work alone.
    const report = (_label: string, done: number): void => void (done === 1 && setTimeout(() => stop.abort(), 20));
    const cancelled = saveStills(wanted, ffmpeg, { signal: stop.signal, report });
    await expectRefused(cancelled, 'cancelled', /still was not made/);
    expect(runningEncoders()).toBe(0);
    expect(readdirSync(wanted.folder)).toEqual([]);
    await saveStills({ ...wanted, width: 700 }, ffmpeg, UNWATCHED);
    await expectRefused(saveStills({ ...wanted, width: 12 }, ffmpeg, UNWATCHED), 'bad-arguments');
    expect(runningEncoders()).toBe(0);
  });

  it('say how far they are: every picture and every still is a step', async () => {
    const now = await swingWith({ address: 2, top: 9 });
    const steps: string[] = [];
    const report = (_label: string, done: number, total: number | null): void => void steps.push(`${done}/${total}`);
    await saveStills(order(now, { checkpoints: ['address', 'top'] }), ffmpeg, { ...UNWATCHED, report });
    expect(steps).toEqual(['0/3', '1/3', '2/3', '3/3']);
  });
});
