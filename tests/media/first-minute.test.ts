import { mkdtempSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { CopyState, PictureUse, ServedFacts, ToWindow } from '../../electron/frames/contract.ts';
import { FrameDesk } from '../../electron/frames/frame-desk.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { codesOfAll } from '../support/window-pixels.ts';

/** What a hand does to a desk in the first minute with clips that have just come. */

const ffmpeg = await findFfmpeg();
const FRAMES = 240;
const clips = mkdtempSync(join(tmpdir(), 'baybook-test-'));
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-g', '30'];
/** Gaps from one tick to a third of a second, in ticks of 1/15360 s. */
const UNEVEN = "settb=1/15360,setpts='if(eq(N,30),PREV_OUTPTS+1,N*512+mod(N*N*37,7)*70+gt(N,20)*4000)'";

interface Clip {
  readonly path: string;
  readonly index: ClipIndex;
  readonly keys: readonly number[];
}
let [even, uneven, single]: Clip[] = [];

async function makeClip(name: string, frames: number, args: readonly string[]): Promise<Clip> {
  const path = join(clips, name);
  makeCodedClip(ffmpeg, frames, '120', [...args, path]);
  const index = await readClipIndex(path, { ffmpeg });
  return { path, index, keys: [...index.frames.keys()].filter((frame) => index.frames[frame]?.key === true) };
}

beforeAll(async () => {
  even = await makeClip('even.mp4', FRAMES, H264);
  const passed = ['-fps_mode', 'passthrough', '-enc_time_base', '1:15360', '-video_track_timescale', '15360'];
  uneven = await makeClip('uneven.mp4', FRAMES, ['-vf', UNEVEN, ...H264, ...passed]);
  single = await makeClip('single.mp4', 1, H264);
});
afterAll(() => {
  rmSync(clips, { recursive: true });
  expect(runningCount()).toBe(0);
});

function made(clip: Clip | undefined): Clip {
  if (clip === undefined) throw new Error('the clip is not made yet');
  return clip;
}

function facts({ path, index }: Clip, digit: string): ServedFacts {
  const { size, mtimeMs } = statSync(path);
  return { path, bytes: size, modifiedMs: mtimeMs, index, first: 0, source: null, sha256: digit.repeat(64) };
}

function newDesk(folder: string) {
  const toWindow: ToWindow[] = [];
  const desk = new FrameDesk(new ProxyStore(folder, { keepFreeBytes: 0 }), () => undefined);
  desk.connect((message) => toWindow.push(message));
  onTestFinished(() => desk.end());
  let last = 0;
  const want = (clip: string, frame: number, use: PictureUse): number => {
    desk.hear({ type: 'want', id: (last += 1), clip, frame, quality: 'proxy', use });
    return last;
  };
  const pictureOf = async (id: number): Promise<WindowPicture> => {
    const answer = () => toWindow.find((message) => message.type !== 'copy' && message.id === id);
    await expect.poll(answer, { timeout: 30_000 }).toBeDefined();
    const message = answer();
    if (message?.type !== 'picture') throw new Error(`no picture: ${JSON.stringify(message)}`);
    return message;
  };
  const codesOf = async (ids: readonly number[]): Promise<number[]> =>
    codesOfAll(ffmpeg, await Promise.all(ids.map(pictureOf)));
  const stateOf = (clip: string): CopyState | undefined =>
    toWindow.flatMap((each) => (each.type === 'copy' && each.clip === clip ? [each.state] : [])).at(-1);
  const comes = (clip: string, doing: CopyState['doing']) =>
    expect.poll(() => stateOf(clip)?.doing, { timeout: 60_000 }).toBe(doing);
  return { desk, want, codesOf, stateOf, comes };
}

describe('two clips that come at once', () => {
  it('show strips and jumps of their own frames while both copies are made, also of uneven times', async () => {
    const { desk, want, codesOf, comes } = newDesk(temporaryFolder());
    const [a, b] = [made(even), made(uneven)];
    void desk.open('a', facts(a, 'a'), ffmpeg);
    void desk.open('b', facts(b, 'b'), ffmpeg);
    const strips = [
      ...a.keys.map((frame) => want('a', frame, 'strip')),
      ...b.keys.map((frame) => want('b', frame, 'strip')),
    ];
    const jumps = [want('a', 200, 'hand'), want('b', 77, 'hand')];
    expect(await codesOf(strips)).toEqual([...a.keys, ...b.keys]);
    expect(await codesOf(jumps)).toEqual([200, 77]);
    await comes('a', 'whole');
    await comes('b', 'whole');
    const all = [0, 29, 30, 31, 120, FRAMES - 1];
    expect(await codesOf(all.flatMap((frame) => [want('a', frame, 'cell'), want('b', frame, 'cell')]))).toEqual(
      all.flatMap((frame) => [frame, frame]),
    );
  });

  it('are left at any moment: nothing runs on, and the next start goes on with what is there', async () => {
    const folder = temporaryFolder();
    for (const afterMs of [0, 60, 250, 600]) {
      const { desk, want } = newDesk(folder);
      void desk.open('a', facts(made(even), 'a'), ffmpeg);
      void desk.open('b', facts(made(uneven), 'b'), ffmpeg);
      for (const frame of made(even).keys) want('a', frame, 'strip');
      for (const frame of made(uneven).keys) want('b', frame, 'strip');
      want('b', 150, 'hand');
      await new Promise((resolve) => setTimeout(resolve, afterMs));
      await desk.end();
      expect(runningCount(), `after ${afterMs} ms`).toBe(0);
    }
    const { desk, want, codesOf, comes } = newDesk(folder);
    void desk.open('a', facts(made(even), 'a'), ffmpeg);
    void desk.open('b', facts(made(uneven), 'b'), ffmpeg);
    await comes('a', 'whole');
    await comes('b', 'whole');
    const frames = [0, 17, 30, 99, 151, FRAMES - 1];
    expect(await codesOf(frames.map((frame) => want('a', frame, 'cell')))).toEqual(frames);
    expect(await codesOf(frames.map((frame) => want('b', frame, 'cell')))).toEqual(frames);
  });
});

describe('a clip', () => {
  it('of one frame has a strip, a picture and a copy', async () => {
    const { desk, want, codesOf, comes } = newDesk(temporaryFolder());
    void desk.open('a', facts(made(single), 'a'), ffmpeg);
    expect(await codesOf([want('a', 0, 'strip'), want('a', 0, 'hand')])).toEqual([0, 0]);
    await comes('a', 'whole');
  });

  it('that is moved while its copy is made is told of, loses nothing, and goes on where it was once it is back', async () => {
    const { desk, want, codesOf, comes, stateOf } = newDesk(temporaryFolder());
    const moving = { ...made(even), path: join(clips, 'moving.mp4') };
    makeCodedClip(ffmpeg, FRAMES, '120', [...H264, moving.path]);
    void desk.open('a', facts(moving, 'a'), ffmpeg);
    await comes('a', 'making');
    renameSync(moving.path, `${moving.path}.elsewhere`);
    await comes('a', 'failed');
    expect(stateOf('a')?.sentence).toMatch(/moving\.mp4/);
    const kept = stateOf('a')?.written ?? 0;
    renameSync(`${moving.path}.elsewhere`, moving.path);
    // As when it is looked at again.
    void desk.open('a', facts(moving, 'a'), ffmpeg);
    await comes('a', 'whole');
    expect(stateOf('a')?.written).toBe(FRAMES);
    expect(kept).toBeLessThanOrEqual(FRAMES);
    const frames = [0, 45, 120, FRAMES - 1];
    expect(await codesOf(frames.map((frame) => want('a', frame, 'cell')))).toEqual(frames);
  });
});
