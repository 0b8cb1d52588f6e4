import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { keepSpan } from '../../../core/video/span/keep-span.ts';
import { leaveBench } from '../../e2e/page-hands.ts';
import { PAIR, ROWS } from '../bars.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { timeRawDecode } from '../plain/plain-ffmpeg.ts';
import { ratio } from '../statistics.ts';
import { followCopy } from './copy-progress.ts';
import { importClip, openSession, openSwing } from './session.ts';

const SWING = 'Swing 1';
const STRIP_LIMIT_MS = 120_000;
/** The part of each clip that is kept: four of its ten seconds. */
const KEPT = { from: 0.3, to: 0.7 } as const;

type Pair = readonly [BenchClip, BenchClip];

/** What a coach waits for who films from two cameras: the second clip comes in while the first is still being made ready. */
export async function takeTwoCameras(run: BenchRun): Promise<void> {
  const clips: Pair = [await takeBenchClip(run.store, '1080p240'), await takeBenchClip(run.store, '1080p240-second')];
  const { pair } = ROWS.two;
  run.say('two cameras: plain decode of both ...');
  const decode = (await timeRawDecode(clips[0])) + (await timeRawDecode(clips[1]));
  run.say('two cameras: both in the window ...');
  const { first, second, strip, copies } = await takeWindow(clips);
  run.enter(pair.picture, PAIR, second);
  run.enter(pair.pictures, PAIR, ratio(second, first));
  run.enter(pair.strip, PAIR, strip);
  run.enter(pair.stripShare, PAIR, ratio(strip, decode));
  run.enter(pair.copies, PAIR, ratio(copies, decode));
  run.say('two cameras: a swing is kept of both ...');
  run.enter(pair.keep, PAIR, await takeKeeping(clips));
}

/** Milliseconds: first pictures of both; strip and copies from the second one's picture on the bench. */
async function takeWindow(clips: Pair) {
  const session = await openSession([SWING]);
  const { page } = session;
  try {
    await openSwing(session, SWING);
    const first = await importClip(session, clips[0], 'down-the-line');
    await leaveBench(page);
    const second = await importClip(session, clips[1], 'face-on');
    const start = performance.now();
    await page.locator('canvas[data-strip][data-whole="true"]').waitFor({ timeout: STRIP_LIMIT_MS });
    const strip = performance.now() - start;
    for (const clip of clips) await (await followCopy(session, clip)).whole();
    return { first: first.looked, second: second.looked, strip, copies: performance.now() - start };
  } finally {
    await session.program.close();
  }
}

/** A swing kept of both clips at the same time, against a plain decode of what was kept. */
async function takeKeeping(clips: Pair): Promise<number | null> {
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-two-'));
  try {
    const start = performance.now();
    const kept = await Promise.all(
      clips.map(async ({ ffmpeg, path, index }, camera) => {
        const [from, to] = [KEPT.from, KEPT.to].map((part) => Math.floor(part * index.frames.length));
        const out = join(folder, `${camera}.mp4`);
        await keepSpan({ ffmpeg, path, index, from: from ?? 0, to: to ?? 0, out });
        return { path: out, ffmpeg };
      }),
    );
    const lasted = performance.now() - start;
    let decode = 0;
    for (const clip of kept) decode += await timeRawDecode(clip);
    return ratio(lasted, decode);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
