import { mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Clip } from '../../../core/model/book.ts';
import { keepSpan } from '../../../core/video/span/keep-span.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import type { Ffmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { ask } from '../../e2e/page-hands.ts';
import { seeded } from '../../support/seeded.ts';
import { LONG, ROWS } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { takeClip } from '../clips/clip-store.ts';
import { bytesRead } from '../plain/bytes-read.ts';
import { pressUntilPicture } from '../in-page/press-until-picture.ts';
import { timeIndex } from '../plain/index-and-copy.ts';
import { timeRawDecode } from '../plain/plain-ffmpeg.ts';
import { runPlain } from '../plain/run-plain.ts';
import { median, ratio } from '../statistics.ts';
import { chooseClip, importClip, openSession, openSwing } from './session.ts';
import type { SeenClip, Session } from './session.ts';
import { jumpTo } from './plans.ts';

const VIEW = 'face-on';
const STRIP_LIMIT_MS = 120_000;
/** Frames of the swing that is kept: four seconds in the middle of the clip. */
const SWING = { from: 21_600, to: 22_559 } as const;
const REPEATS = 5;
const KEPT_LIMIT_MS = 60_000;
const FILM_FRAMES = 4800;
/** Jumps in threes once the swing has its own file. */
const ROUNDS_AFTER = 5;

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
  run.say('three minutes: a swing is kept in the window ...');
  const shown = await takeKeeping(seen(path));
  run.enter(long.keepShown, LONG, shown.first);
  run.enter(long.keepDone, LONG, shown.done);
  run.enter(long.keepWrong, LONG, shown.wrong);
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
        await page.keyboard.press('Escape');
        await page.getByRole('dialog').waitFor({ state: 'detached' });
      }
    await importClip(session, long, VIEW);
    const start = performance.now();
    await page.locator('canvas[data-strip][data-whole="true"]').waitFor({ timeout: STRIP_LIMIT_MS });
    return { pictures, strip: performance.now() - start };
  } finally {
    await session.program.close();
  }
}

/**
 * Keeps a swing of four seconds and opens it the moment that it can be: ms until the bench shows it, ms until it has a file of
 * its own, and how many pictures were wrong while a hand jumped about in it from its first picture till after that.
 */
async function takeKeeping(clip: SeenClip) {
  const session = await openSession(['Swing 1']);
  const { page } = session;
  try {
    await openSwing(session, 'Swing 1');
    await chooseClip(session, clip, VIEW);
    await page.getByText('Looking at the clip ...').waitFor({ state: 'detached' });
    const from = page.getByLabel('From, seconds');
    await from.fill('90');
    await from.press('Tab');
    const to = page.getByLabel('To, seconds');
    await to.fill('94');
    await to.press('Tab');
    const keep = { press: 'Add the swing', then: 'Open clip, Face on', wait: 'painted', limit: KEPT_LIMIT_MS } as const;
    const start = performance.now();
    const first = await page.evaluate(pressUntilPicture, keep);
    const [added] = await clipsOf(session);
    if (added?.kept === null || added === undefined) throw new Error('no part was kept');
    const { kept, frameCount } = added;
    // The film is the one of 20 seconds, nine times.
    const codes = Array.from({ length: frameCount }, (_, frame) => (kept.first + frame) % FILM_FRAMES);
    await page.evaluate((all) => window.bench.beginChecking(all), codes);
    const random = seeded(4);
    let [done, unanswered, after]: [number | null, number, number] = [null, 0, 0];
    while (after < ROUNDS_AFTER && performance.now() - start < KEPT_LIMIT_MS) {
      if (done === null && (await clipsOf(session)).every(({ coming }) => coming !== true))
        done = performance.now() - start;
      if (done !== null) after += 1;
      const orders = [0, 1, 2].map((each) =>
        jumpTo(Math.floor(random() * frameCount), { want: each === 2 ? 'sharp' : 'any' }),
      );
      const answers = await page.evaluate((all) => window.bench.carryOut(all), orders);
      unanswered += answers.filter(({ drawn }) => drawn === null).length;
    }
    const checked = await page.evaluate(() => window.bench.endChecking());
    return { first, done, wrong: checked.paints === 0 ? null : checked.wrongCount + unanswered };
  } finally {
    await session.program.close();
  }
}

async function clipsOf({ page }: Session): Promise<readonly Clip[]> {
  const [student] = await ask(page, 'student/list', null);
  return (await ask(page, 'swing/open', { id: student?.lessons[0]?.swings[0]?.swing.id ?? '' })).clips;
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
