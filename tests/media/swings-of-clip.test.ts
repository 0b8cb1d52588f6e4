import { join } from 'node:path';
import { expect, test } from 'vitest';
import { swingsOfClip } from '../../core/jobs/swings-of-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { AppError } from '../../core/model/errors.ts';
import { ticksToSeconds } from '../../core/time/rational.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { describeOn, outsideMedia } from '../support/outside-media.ts';
import { filmSession } from '../support/long-session.ts';
import { seeded } from '../support/seeded.ts';
import { lasting, sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
/** Of a picture before and one after: pictures are looked at 30 times a second, and the truth lies between two. */
const NEAR_SECONDS = 0.15;
const SESSIONS = sized(
  [{ view: 'face-on', strikes: 3, practices: 2, seed: 3 }] as const,
  ([1, 2, 3, 4] as const).flatMap((seed) =>
    (['face-on', 'down-the-line'] as const).map((view) => ({ view, strikes: 10, practices: 4, seed })),
  ),
);

test.each(SESSIONS)(
  '$view, seed $seed: all $strikes strikes, at most one false among $practices practice swings and a neighbour',
  async ({ view, strikes, practices, seed }) => {
    const path = join(temporaryFolder(), 'session.mp4');
    const truth = await filmSession(path, ffmpeg, { view, strikes, practices, random: seeded(seed) });
    const index = await readClipIndex(path, { ffmpeg, byTables: true });
    const found = (await swingsOfClip({ path, index }, ffmpeg, UNWATCHED)).filter(({ seen, heard }) => seen || heard);
    const secondsOf = (frame: number): number => ticksToSeconds(index.frames[frame]?.pts ?? 0, index.timebase);
    const isNear = (seconds: number) =>
      found.some(({ impact }) => Math.abs(secondsOf(impact) - seconds) < NEAR_SECONDS);
    expect(truth.strikes.filter((seconds) => !isNear(seconds))).toEqual([]);
    expect(found.length).toBeLessThanOrEqual(strikes + 1);
    for (const { impact, span } of found) {
      // The way back lies before it and the finish behind it, as far as the clip goes.
      expect(secondsOf(impact) - secondsOf(span.from)).toBeGreaterThan(Math.min(2.9, secondsOf(impact)) - 0.1);
      expect(span.to).toBeLessThan(index.frames.length);
      expect(secondsOf(span.to) - secondsOf(impact)).toBeLessThanOrEqual(2.001);
    }
  },
  300_000,
);

test(
  'a cancel ends it',
  async () => {
    const path = join(temporaryFolder(), 'session.mp4');
    await filmSession(path, ffmpeg, { view: 'face-on', strikes: 1, practices: 0, random: seeded(9) });
    const index = await readClipIndex(path, { ffmpeg, byTables: true });
    const control = new AbortController();
    const report = (_: string, done: number): void => {
      if (done > 20) control.abort();
    };
    const run = swingsOfClip({ path, index }, ffmpeg, { signal: control.signal, report });
    await expect(run).rejects.toMatchObject({ code: 'cancelled' });
    await expect(run).rejects.toBeInstanceOf(AppError);
  },
  lasting(120_000),
);

const CLIP = 'golf/down-the-line-slow.mp4';
describeOn(CLIP)('a real clip, its labels set by eye (its manifest)', () => {
  test(
    'shows its one strike at 143 or 144, seen and heard',
    async () => {
      const path = outsideMedia(CLIP);
      const index = await readClipIndex(path, { ffmpeg, byTables: true });
      const struck = (await swingsOfClip({ path, index }, ffmpeg, UNWATCHED)).filter(
        ({ seen, heard }) => seen || heard,
      );
      expect(struck).toMatchObject([{ seen: true, heard: true }]);
      expect([143, 144]).toContain(struck[0]?.impact);
    },
    lasting(120_000),
  );
});
