import { join } from 'node:path';
import { expect, test } from 'vitest';
import { runCommandLine } from '../../core/cli/run.ts';
import { followThing } from '../../core/jobs/follow-thing.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import type { FollowedThing } from '../../core/model/followed.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { GOLF_FRAMES } from '../support/golf-swing.ts';
import { describeOn, outsideMedia } from '../support/outside-media.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { within } from '../support/within.ts';

const ffmpeg = await findFfmpeg();
const CLIP = 'golf/down-the-line-slow.mp4';

/** Its places were set by eye on the full-size pictures (tests/support/golf-swing.ts). */
describeOn(CLIP)('on a real clip', () => {
  test('the head is followed from address to impact, as it was placed by eye', async () => {
    const path = outsideMedia(CLIP);
    const index = await readClipIndex(path, { ffmpeg, byTables: true });
    const { address, top, impact } = GOLF_FRAMES;
    const [x, y] = address?.points['head-centre'] ?? [NaN, NaN];
    const [frame, until] = [address?.index ?? NaN, impact?.index ?? NaN];
    const found = await followThing({ path, index, subject: 'head', frame, at: { x, y }, until }, ffmpeg, UNWATCHED);
    expect(found.lost).toBeNull();
    for (const marked of [top, impact]) {
      const place = found.places.find((each) => each.frame === marked?.index);
      const [meantX, meantY] = marked?.points['head-centre'] ?? [NaN, NaN];
      // The head turns, and the place that is followed with it; it is some 40 pixels wide.
      within(place?.x ?? NaN, meantX, 6);
      within(place?.y ?? NaN, meantY, 6);
    }
  }, 60_000);

  test('the ball is where it lies until the club is there, and is then said to be lost, by the command line', async () => {
    const out: string[] = [];
    const context = { out: (line: string) => void out.push(line), say: () => undefined };
    const { signal } = new AbortController();
    const words = ['propose', outsideMedia(CLIP), '--json', '--follow', 'ball,100,322,440'];
    expect(await runCommandLine(words, { ...context, signal })).toBe(0);
    const { followed } = JSON.parse(out.join('')) as { followed: FollowedThing };
    expect(followed.lost).not.toBeNull();
    // It is struck after 143, and the club covers it for a frame or two before.
    within(followed.places.at(-1)?.frame ?? NaN, 141, 3);
    for (const place of followed.places) within(Math.hypot(place.x - 322, place.y - 440), 0, 1.5);
  }, 60_000);
});

test('where nothing is to hold on to it is lost at once; a cancel ends it; what is no thing is refused in a sentence', async () => {
  const path = join(temporaryFolder(), 'codes.mp4');
  makeCodedClip(ffmpeg, 8, '30', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', path]);
  const index = await readClipIndex(path, { ffmpeg, byTables: true });
  const order = { path, index, subject: 'hands', frame: 0, at: { x: -500, y: -500 }, until: 7 } as const;
  expect(await followThing(order, ffmpeg, UNWATCHED)).toEqual({ places: [], lost: 'nothing to hold on to' });
  const control = new AbortController();
  const run = followThing(order, ffmpeg, { signal: control.signal, report: () => control.abort() });
  await expect(run).rejects.toMatchObject({ code: 'cancelled' });
  const said: string[] = [];
  const context = { out: () => undefined, say: (line: string) => void said.push(line) };
  const words = ['propose', path, '--follow', 'shoes,1,2,3'];
  expect(await runCommandLine(words, { ...context, signal: new AbortController().signal })).not.toBe(0);
  expect(said.join(' ')).toContain('--follow takes clubhead, hands, head, ball');
}, 60_000);
