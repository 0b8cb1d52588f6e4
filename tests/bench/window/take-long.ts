import { mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { keepSpan } from '../../../core/video/span/keep-span.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import type { Ffmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { LONG, ROWS } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { takeClip } from '../clips/clip-store.ts';
import { bytesRead } from '../plain/bytes-read.ts';
import { timeIndex } from '../plain/index-and-copy.ts';
import { timeRawDecode } from '../plain/plain-ffmpeg.ts';
import { runPlain } from '../plain/run-plain.ts';
import { median, ratio } from '../statistics.ts';
import { chooseClip, importClip, openSession, openSwing } from './session.ts';
import type { SeenClip } from './session.ts';

const VIEW = 'face-on';
const STRIP_LIMIT_MS = 120_000;
/** Frames of the swing that is kept: four seconds in the middle of the clip. */
const SWING = { from: 21_600, to: 22_559 } as const;
const REPEATS = 9;

/** What a coach waits for with a clip of three minutes, from choosing it to its strip; and what keeping a swing of it takes. */
export async function takeLongFigures(run: BenchRun): Promise<void> {
  const { ffmpeg, films } = run.store;
  const path = await takeClip(run.store, LONG);
  const short = await takeClip(run.store, '1080p240');
  const { long } = ROWS.long;
  run.say('three minutes: plain decode ...');
  const decode = await timeRawDecode({ path, ffmpeg });
  const indexes: number[] = [];
  for (let each = 0; each < REPEATS; each += 1) indexes.push(await timeIndex({ path, ffmpeg }));
  run.enter(long.decode, LONG, decode);
  run.enter(long.indexTime, LONG, median(indexes));
  run.enter(long.index, LONG, ratio(median(indexes), decode));
  run.say('three minutes: in the window ...');
  const seen = (file: string): SeenClip => ({ path: file, stored: films.recipes[LONG].size, turn: 0 });
  const { pictures, strip } = await takeWindow(seen(path), seen(short), run.quick ? 1 : 3);
  run.enter(long.picture, LONG, median(pictures.long));
  run.enter(long.pictures, LONG, ratio(median(pictures.long), median(pictures.short)));
  run.enter(long.strip, LONG, strip);
  run.enter(long.stripShare, LONG, ratio(strip, decode));
  run.say('three minutes: a swing is kept ...');
  const keep = await timeKeeping(path, ffmpeg);
  run.enter(long.keepTime, LONG, keep.lasted);
  run.enter(long.keep, LONG, ratio(keep.lasted, keep.decode));
  run.say('three minutes: what is read ...');
  run.enter(long.read, LONG, ratio(await bytesRead(path), (await stat(path)).size));
}

/** Both clips are chosen turn and turn about; then the long one is added whole. */
async function takeWindow(long: SeenClip, short: SeenClip, repeats: number) {
  const session = await openSession(['Swing 1']);
  const { page } = session;
  const pictures: { readonly long: number[]; readonly short: number[] } = { long: [], short: [] };
  try {
    await openSwing(session, 'Swing 1');
    // The first choice of all starts what later ones find ready, so it is not counted.
    for (let each = 0; each <= repeats; each += 1)
      for (const [times, clip] of [[pictures.short, short] as const, [pictures.long, long] as const]) {
        const looked = await chooseClip(session, clip, VIEW);
        if (each > 0) times.push(looked ?? Infinity);
        await page.getByText('Looking at the clip ...').waitFor({ state: 'detached' });
        await leaveDialog(page);
      }
    await importClip(session, long, VIEW);
    const start = performance.now();
    await page.locator('canvas[data-strip][data-whole="true"]').waitFor({ timeout: STRIP_LIMIT_MS });
    return { pictures, strip: performance.now() - start };
  } finally {
    await session.program.close();
  }
}

/** Half a second after it opens, a dialog that no hand opened lets the keys go for a moment: then Esc is pressed again. */
async function leaveDialog(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog');
  for (let isOpen = true; isOpen;) {
    await dialog.press('Escape');
    isOpen = await dialog.waitFor({ state: 'detached', timeout: 2000 }).then(
      () => false,
      () => true,
    );
  }
}

async function timeKeeping(
  path: string,
  ffmpeg: Ffmpeg,
): Promise<{ readonly lasted: number; readonly decode: number }> {
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-keep-'));
  try {
    const index = await readClipIndex(path, { ffmpeg, byTables: true });
    const span = { from: Math.min(SWING.from, index.frames.length - 960), to: 0 };
    span.to = span.from + (SWING.to - SWING.from);
    const out = join(folder, 'swing.mp4');
    const start = performance.now();
    await keepSpan({ ffmpeg, path, index, ...span, out });
    const lasted = performance.now() - start;
    return { lasted, decode: (await runPlain(ffmpeg, ['-i', out, '-map', '0:v', '-f', 'null', '-'])).lasted };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
