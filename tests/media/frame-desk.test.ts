import { mkdtempSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { PictureQuality } from '../../core/model/picture-layout.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import type { ClipSource } from '../../core/video/index/clip-source.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { partStarts } from '../../core/video/proxy/copy-order.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { PictureUse, ServedFacts, ToProgram, ToWindow } from '../../electron/frames/contract.ts';
import { FrameDesk } from '../../electron/frames/frame-desk.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { seeded } from '../support/seeded.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { codesOfAll } from '../support/window-pixels.ts';

const ffmpeg = await findFfmpeg();
const FRAMES = 300;
const SHA = 'ab'.repeat(32);
const clips = mkdtempSync(join(tmpdir(), 'baybook-test-'));
const path = join(clips, 'swing.mp4');
let index: ClipIndex;
let source: ClipSource;

beforeAll(async () => {
  makeCodedClip(ffmpeg, FRAMES, '120', ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', path]);
  index = await readClipIndex(path, { ffmpeg });
  source = await readClipSource(path, { ffmpeg });
});
afterAll(() => {
  rmSync(clips, { recursive: true });
  expect(runningCount()).toBe(0);
});

function facts(file = path, sha256: string | null = SHA): ServedFacts {
  const { size, mtimeMs } = statSync(file);
  return { path: file, bytes: size, modifiedMs: mtimeMs, index, first: 0, source: { ...source, path: file }, sha256 };
}

/** A desk with a page that keeps what it was sent. */
function newDesk(folder = temporaryFolder()) {
  const toProgram: ToProgram[] = [];
  const toWindow: ToWindow[] = [];
  const desk = new FrameDesk(new ProxyStore(folder, { keepFreeBytes: 0 }), (message) => toProgram.push(message));
  desk.connect((message) => toWindow.push(message));
  onTestFinished(() => desk.end());
  let last = 0;
  const ask = (frame: number, quality: PictureQuality, clip: string, use: PictureUse): number => {
    desk.hear({ type: 'want', id: (last += 1), clip, frame, quality, use });
    return last;
  };
  const want = (frame: number, quality: PictureQuality, clip = 'a') => ask(frame, quality, clip, 'hand');
  const wantSingle = (frame: number, quality: PictureQuality, clip = 'a') => ask(frame, quality, clip, 'cell');
  const wantOnStrip = (frame: number, clip = 'a') => ask(frame, 'proxy', clip, 'strip');
  const answer = (id: number): ToWindow | undefined =>
    toWindow.find((message) => message.type !== 'copy' && message.id === id);
  const pictureOf = async (id: number): Promise<WindowPicture> => {
    await expect.poll(() => answer(id)).toBeDefined();
    const message = answer(id);
    if (message?.type !== 'picture') throw new Error(`no picture: ${JSON.stringify(message)}`);
    return message;
  };
  const codesOf = async (...ids: readonly number[]): Promise<number[]> =>
    codesOfAll(ffmpeg, await Promise.all(ids.map(pictureOf)));
  const whole = (clip = 'a'): Promise<unknown> =>
    expect
      .poll(() => toWindow.some((each) => each.type === 'copy' && each.clip === clip && each.state.doing === 'whole'), {
        timeout: 30_000,
      })
      .toBe(true);
  return { desk, want, wantSingle, wantOnStrip, answer, pictureOf, codesOf, whole, toProgram, toWindow };
}

describe('pictures', () => {
  it('are the right ones before, while and after the copy is made, small and sharp', async () => {
    const { desk, want, pictureOf, whole } = newDesk();
    void desk.open('a', facts(), ffmpeg);
    const asked: number[] = [];
    const pictures: WindowPicture[] = [];
    const look = async (frame: number, quality: PictureQuality): Promise<void> => {
      asked.push(frame);
      pictures.push(await pictureOf(want(frame, quality)));
    };
    await look(FRAMES - 1, 'proxy');
    const random = seeded(3);
    for (let round = 0; round < 12; round += 1)
      await look(Math.floor(random() * FRAMES), round % 3 === 0 ? 'sharp' : 'proxy');
    await whole();
    for (const frame of [0, 1, 249, 250, 251, FRAMES - 1])
      for (const quality of ['proxy', 'sharp'] as const) await look(frame, quality);
    expect(codesOfAll(ffmpeg, pictures)).toEqual(asked);
  });

  it('come from the copy without an ffmpeg, also after the program was started anew', async () => {
    const folder = temporaryFolder();
    const first = newDesk(folder);
    void first.desk.open('a', facts(), ffmpeg);
    await first.whole();
    await first.desk.end();
    const second = newDesk(folder);
    void second.desk.open('a', facts(), ffmpeg);
    await second.whole();
    expect(await second.codesOf(second.want(123, 'proxy'))).toEqual([123]);
    expect(runningCount()).toBe(0);
  });

  it('that were dropped are not sent, and the next ones come', async () => {
    const { desk, want, answer, codesOf } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    const dropped = want(280, 'sharp');
    desk.hear({ type: 'drop', id: dropped });
    expect(await codesOf(want(5, 'sharp'))).toEqual([5]);
    expect(answer(dropped)).toBeUndefined();
  });

  it('of two clips at once are each their own', async () => {
    const { desk, want, codesOf } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    void desk.open('b', facts(path, null), ffmpeg);
    const requests = [want(10, 'sharp', 'a'), want(200, 'sharp', 'b'), want(11, 'proxy', 'a'), want(199, 'proxy', 'b')];
    expect(await codesOf(...requests)).toEqual([10, 200, 11, 199]);
  });
});

describe('a part of a clip that is read out of the whole', () => {
  it('shows its own frames, and goes over to its own file without one that is wrong or missing', async () => {
    const { desk, want, wantSingle, codesOf } = newDesk();
    const first = 200;
    const from = { ...facts(path, null), first };
    void desk.open('a', from, ffmpeg);
    expect(await codesOf(want(0, 'sharp'), wantSingle(99, 'sharp'), wantSingle(1, 'proxy'))).toEqual([200, 299, 201]);
    const out = join(temporaryFolder(), 'part.mp4');
    const kept = await keepSpan({ ffmpeg, path, index, from: 250, to: FRAMES - 1, out });
    expect(kept.first).toBe(250);
    const part = { ...facts(out, 'b'.repeat(64)), index: await readClipIndex(out, { ffmpeg }), source: null };
    void desk.open('b', { ...from, first: kept.first }, ffmpeg);
    // Some are asked of the whole and not there yet, when the part takes its place.
    const asked = [want(20, 'sharp', 'b'), ...[0, 40, 7, 49].map((frame) => wantSingle(frame, 'sharp', 'b'))];
    await desk.open('b', part, ffmpeg);
    asked.push(want(12, 'proxy', 'b'));
    expect(await codesOf(...asked)).toEqual([270, 250, 290, 257, 299, 262]);
  });
});

describe('single pictures', () => {
  it('far apart come all, the right ones, while a hand moves in the same clip', async () => {
    const { desk, want, wantSingle, codesOf } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    const frames = [0, 290, 31, 150, 77];
    const singles = frames.flatMap((frame) => [wantSingle(frame, 'sharp'), wantSingle(frame, 'proxy')]);
    for (const frame of [200, 201, 202]) expect(await codesOf(want(frame, 'sharp'))).toEqual([frame]);
    expect(await codesOf(...singles)).toEqual(frames.flatMap((frame) => [frame, frame]));
  });

  it('come from the copy, where it is whole, with the first request and without an ffmpeg', async () => {
    const folder = temporaryFolder();
    const first = newDesk(folder);
    void first.desk.open('a', facts(), ffmpeg);
    await first.whole();
    await first.desk.end();
    const { desk, wantSingle, answer, codesOf } = newDesk(folder);
    void desk.open('a', facts(), ffmpeg);
    const asked = [5, 295, 120].map((frame) => wantSingle(frame, 'proxy'));
    let most = 0;
    await expect
      .poll(() => {
        most = Math.max(most, runningCount());
        return asked.every((id) => answer(id) !== undefined);
      })
      .toBe(true);
    expect(most).toBe(0);
    expect(await codesOf(...asked)).toEqual([5, 295, 120]);
  });

  it('that were dropped are not sent, and nothing runs when their clip is closed', async () => {
    const { desk, wantSingle, answer } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    const [dropped, ...others] = [290, 280, 270, 260].map((frame) => wantSingle(frame, 'sharp'));
    desk.hear({ type: 'drop', id: dropped ?? 0 });
    await desk.close('a');
    expect(runningCount()).toBe(0);
    for (const id of others) await expect.poll(() => answer(id)).toMatchObject({ type: 'none', code: 'cancelled' });
    expect(answer(dropped ?? 0)).toBeUndefined();
  });
});

describe('pictures of a strip', () => {
  const keys = () => [...index.frames.keys()].filter((frame) => index.frames[frame]?.key === true);

  it('come all out of one ffmpeg, small, the right ones, and are not kept for the hand', async () => {
    const { desk, want, wantOnStrip, codesOf, answer } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    // Those that are no key pictures, or none of the clip's, come as before or not at all.
    const asked = [...keys(), 7].map((frame) => wantOnStrip(frame));
    const none = wantOnStrip(FRAMES);
    let most = 0;
    await expect
      .poll(() => {
        most = Math.max(most, runningCount());
        return asked.slice(0, -1).every((id) => answer(id) !== undefined);
      })
      .toBe(true);
    expect(most).toBe(1);
    expect(await codesOf(...asked)).toEqual([...keys(), 7]);
    await expect.poll(() => answer(none)).toMatchObject({ type: 'none', code: 'no-such-frame' });
    const moved = want(keys()[1] ?? 0, 'proxy');
    await expect.poll(() => answer(moved)).toMatchObject({ type: 'picture' });
  });

  it('that were dropped are not made: nothing runs soon after, and the next ones come', async () => {
    const { desk, wantOnStrip, answer, codesOf } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    const dropped = keys().map((frame) => wantOnStrip(frame));
    await expect.poll(() => runningCount(), { interval: 2 }).toBe(1);
    for (const id of dropped) desk.hear({ type: 'drop', id });
    await expect.poll(() => runningCount()).toBe(0);
    expect(await codesOf(wantOnStrip(0))).toEqual([0]);
    expect(dropped.filter((id) => answer(id)?.type === 'none')).toEqual([]);
  });

  it('have the machine to themselves: no picture of a copy is taken meanwhile', async () => {
    const { desk, wantOnStrip, toWindow, whole, pictureOf } = newDesk();
    await desk.open('a', facts(), ffmpeg);
    const written = (): number => {
      const copies = toWindow.flatMap((message) => (message.type === 'copy' ? [message.state.written] : []));
      return copies.at(-1) ?? 0;
    };
    const asked = keys().map((frame) => wantOnStrip(frame));
    const before = written();
    await Promise.all(asked.map(pictureOf));
    expect(written()).toBeLessThan(before + 24);
    await whole();
  });
});

describe('what cannot be', () => {
  it('is told by a code and a sentence: no such clip, no such frame, a file that went or changed', async () => {
    const { desk, want, wantSingle, answer } = newDesk();
    const told = async (id: number): Promise<unknown> => {
      await expect.poll(() => answer(id), { timeout: 10_000 }).toBeDefined();
      const message = answer(id);
      return message?.type === 'none' ? message.code : message;
    };
    expect(await told(want(0, 'proxy', 'unknown'))).toBe('no-such-record');
    const away = join(temporaryFolder(), 'away.mp4');
    makeCodedClip(ffmpeg, 20, '30', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', away]);
    const short = await readClipIndex(away, { ffmpeg });
    void desk.open('a', { ...facts(away, null), index: short }, ffmpeg);
    expect(await told(want(20, 'proxy'))).toBe('no-such-frame');
    expect(await told(want(-1, 'sharp'))).toBe('no-such-frame');
    expect(await told(wantSingle(20, 'proxy'))).toBe('no-such-frame');
    renameSync(away, `${away}.elsewhere`);
    expect(await told(want(3, 'sharp'))).toBe('clip-moved');
    expect(await told(wantSingle(4, 'sharp'))).toBe('clip-moved');
    makeCodedClip(ffmpeg, 10, '30', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', away]);
    expect(await told(want(3, 'sharp'))).toBe('clip-changed');
  });
});

describe('the copy', () => {
  it('tells how far it is, and when whole what was decoded', async () => {
    const { desk, whole, toProgram, toWindow } = newDesk();
    void desk.open('a', facts(), ffmpeg);
    await whole();
    const written = toWindow.flatMap((each) => (each.type === 'copy' ? each.state.written : []));
    expect(written.at(-1)).toBe(FRAMES);
    expect(written).toEqual([...written].sort((a, b) => a - b));
    const decoded = toProgram.find((each) => each.type === 'decoded');
    expect(decoded).toMatchObject({
      clip: 'a',
      pass: { errors: false, delivered: index.frames.map(({ pts }) => pts) },
    });
  });

  it('is made of the frames with a name before others, and says which frames it has', async () => {
    const { desk, whole, toWindow } = newDesk();
    const { length } = index.frames;
    const last = length - 1;
    desk.hear({ type: 'named', clip: 'a', frames: [last] });
    await desk.open('a', facts(), ffmpeg);
    await whole();
    const states = toWindow.flatMap((each) => (each.type === 'copy' ? each.state : []));
    const begun = states.find(({ ready }) => ready.length > 0)?.ready[0];
    expect(begun?.from).toBe(partStarts(index, 'mov').at(-1));
    expect(begun?.from).toBeGreaterThan(0);
    for (const { written, ready } of states)
      expect(ready.reduce((sum, { from, to }) => sum + to - from + 1, 0)).toBe(written);
    expect(states.at(-1)?.ready).toEqual([{ from: 0, to: last }]);
  });

  it('is stopped and goes on where it was', async () => {
    const { desk, whole, toWindow } = newDesk();
    const doing = () => toWindow.flatMap((each) => (each.type === 'copy' ? each.state.doing : []));
    void desk.open('a', facts(), ffmpeg);
    await expect.poll(doing).toContain('making');
    desk.hear({ type: 'copy', clip: 'a', make: false });
    await expect.poll(() => runningCount()).toBe(0);
    expect(doing().at(-1)).toBe('stopped');
    desk.hear({ type: 'copy', clip: 'a', make: true });
    await whole();
  });

  it('is made once for two clips of the same content', async () => {
    const { desk, whole, toProgram } = newDesk();
    void desk.open('a', facts(), ffmpeg);
    void desk.open('b', facts(), ffmpeg);
    await whole('a');
    await whole('b');
    expect(toProgram.flatMap((each) => (each.type === 'decoded' ? each.clip : [])).sort()).toEqual(['a', 'b']);
  });

  it('is finished when nobody looks any more, and then the clip is let go', async () => {
    const { desk, toProgram, toWindow } = newDesk();
    void desk.open('a', facts(), ffmpeg);
    void desk.open('b', facts(path, null), ffmpeg);
    await expect.poll(() => toWindow.length).toBeGreaterThan(1);
    await desk.rest();
    const said = () => toProgram.map((each) => (each.type === 'let-go' ? each.clip : each.type));
    await expect.poll(said, { timeout: 30_000 }).toContain('idle');
    expect(said()).toEqual(expect.arrayContaining(['a', 'b', 'decoded']));
    expect(runningCount()).toBe(0);
  });

  it('of a clip that is opened again while it is let go goes on', async () => {
    const { desk, codesOf, want, toProgram } = newDesk();
    void desk.open('a', facts(path, null), ffmpeg);
    expect(await codesOf(want(20, 'sharp'))).toEqual([20]);
    const resting = desk.rest();
    void desk.open('a', facts(path, null), ffmpeg);
    await resting;
    expect(await codesOf(want(21, 'sharp'))).toEqual([21]);
    expect(toProgram.map(({ type }) => type)).not.toContain('idle');
  });

  it('leaves nothing running when its clip is closed midway', async () => {
    const { desk, toWindow } = newDesk();
    void desk.open('a', facts(), ffmpeg);
    await expect.poll(() => toWindow.length).toBeGreaterThan(1);
    await desk.close('a');
    expect(runningCount()).toBe(0);
  });

  it('at a glance gives small pictures and makes no copy; who looks closer has it made', async () => {
    const { desk, want, wantSingle, codesOf, whole, toWindow } = newDesk();
    await desk.open('a', facts(), ffmpeg, { glance: true, longest: 1280 });
    expect(await codesOf(wantSingle(40, 'proxy'))).toEqual([40]);
    expect(toWindow.filter(({ type }) => type === 'copy')).toEqual([]);
    await desk.rest();
    await desk.open('a', facts(), ffmpeg, { glance: true, longest: 1280 });
    expect(await codesOf(want(41, 'proxy'))).toEqual([41]);
    await whole();
  });
});
