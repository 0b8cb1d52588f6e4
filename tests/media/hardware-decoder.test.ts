import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import {
  compareDecoder,
  hardwareChoice,
  isWorthUsing,
  listHardware,
} from '../../core/video/decode/hardware-decoder.ts';
import type { DecoderChoice } from '../../core/video/decode/hardware-decoder.ts';
import { HardwareTrials } from '../../core/video/decode/hardware-trials.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import type { ClipSource } from '../../core/video/index/clip-source.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { CLIP_SHA, NEVER, expectWhole, timesOf } from '../support/proxy-builds.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
const FRAMES = 150;
/** The software itself under another name: its pictures are equal. */
const EQUAL = hardwareChoice('none');
/** Leaves out a step of decoding, as a decoder with a fault would: its pictures differ, its times do not. */
const WRONG: DecoderChoice = { name: 'wrong', args: ['-skip_loop_filter', 'all'] };

const RUN = { signal: NEVER, sha256: CLIP_SHA };

let clip: { readonly path: string; readonly index: ClipIndex; readonly times: readonly number[] };
let source: ClipSource;

const folder = mkdtempSync(join(tmpdir(), 'baybook-test-'));

beforeAll(async () => {
  const path = join(folder, 'plain.mp4');
  makeCodedClip(ffmpeg, FRAMES, '30', [
    '-c:v',
    'libx264',
    '-preset',
    'fast',
    '-pix_fmt',
    'yuv420p',
    '-bf',
    '2',
    '-g',
    '24',
    path,
  ]);
  const index = await readClipIndex(path, { ffmpeg });
  clip = { path, index, times: timesOf(index) };
  source = await readClipSource(clip.path, { ffmpeg });
});
afterAll(() => {
  rmSync(folder, { recursive: true });
  expect(runningCount()).toBe(0);
});

/** An ffmpeg that notes what it is told, and does something else first: lines of a shell script, `$real` is the true one. */
function noted(lines: readonly string[] = []): { readonly ffmpeg: Ffmpeg; readonly told: () => readonly string[] } {
  const folder = temporaryFolder();
  const [path, log] = [join(folder, 'ffmpeg'), join(folder, 'log')];
  const text = ['#!/bin/sh', `real='${ffmpeg.path}'`, `echo "$*" >> '${log}'`, ...lines, 'exec "$real" "$@"', ''];
  writeFileSync(path, text.join('\n'));
  chmodSync(path, 0o755);
  const told = (): readonly string[] => (existsSync(log) ? readFileSync(log, 'utf8').trim().split('\n') : []);
  return { ffmpeg: { ...ffmpeg, path }, told };
}

const isByHardware = (line: string): boolean => line.includes('-hwaccel ');

describe('a decoder', () => {
  it('that is the software itself has equal pictures; one with a fault has not; one that is not there does not run', async () => {
    const compare = (choice: DecoderChoice) => compareDecoder(choice, source, clip.index, { ffmpeg });
    expect(await compare(EQUAL)).toMatchObject({ ran: true, equal: true });
    expect(await compare(WRONG)).toMatchObject({ ran: true, equal: false });
    expect(await compare(hardwareChoice('nosuch'))).toEqual({ ran: false, late: false });
  });

  it('is worth using only where it ran, gave equal pictures and came clearly sooner', () => {
    expect(isWorthUsing({ ran: false, late: true })).toBe(false);
    expect(isWorthUsing({ ran: true, equal: false, ms: 1, softwareMs: 100 })).toBe(false);
    expect(isWorthUsing({ ran: true, equal: true, ms: 100, softwareMs: 100 })).toBe(false);
    expect(isWorthUsing({ ran: true, equal: true, ms: 81, softwareMs: 100 })).toBe(false);
    expect(isWorthUsing({ ran: true, equal: true, ms: 79, softwareMs: 100 })).toBe(true);
  });
});

describe('what the computer has', () => {
  it('is tried once for a kind of clip: each that ffmpeg lists, and what does not run leaves the software', async () => {
    const listed = (await listHardware(ffmpeg)).map(({ name }) => name);
    expect(listed).not.toContain('none');
    const { ffmpeg: noting, told } = noted();
    const folder = temporaryFolder();
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, ...RUN });
    for (const name of listed) expect(told().filter((line) => line.includes(`-hwaccel ${name} `))).not.toEqual([]);
    const chosen = await new HardwareTrials(folder).chosen(noting, source);
    // On a computer that has one, only what was told apart from nothing may have been taken.
    if (chosen !== null) expect(listed).toContain(chosen.name);
    const before = told().length;
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, ...RUN });
    expect(told().length).toBe(before);
    const other = { ...source, storedWidth: source.storedWidth + 2 };
    await new HardwareTrials(folder).tryOnce(other, clip.index, { ffmpeg: noting, ...RUN });
    expect(told().length).toBeGreaterThan(before);
  });

  it('is not used where its pictures differ, however quick', async () => {
    const { ffmpeg: slow } = noted(['case "$*" in *skip_loop*) ;; *) sleep 0.4;; esac']);
    const trials = new HardwareTrials(temporaryFolder());
    await trials.tryOnce(source, clip.index, { ffmpeg: slow, ...RUN, choices: [WRONG] });
    expect(await trials.chosen(slow, source)).toBe(null);
  });

  it('is used where its pictures are equal and come sooner, and known again at the next start', async () => {
    const { ffmpeg: slow } = noted(['case "$*" in *-hwaccel*) ;; *framemd5*) sleep 3;; esac']);
    const folder = temporaryFolder();
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: slow, ...RUN, choices: [EQUAL] });
    expect(await new HardwareTrials(folder).chosen(slow, source)).toEqual(EQUAL);
    // Another program may decode otherwise.
    expect(await new HardwareTrials(folder).chosen({ ...slow, version: '9.9' }, source)).toBe(null);
  });

  it('counts as not tried when the trial was broken off', async () => {
    const { ffmpeg: noting, told } = noted();
    const trials = new HardwareTrials(temporaryFolder());
    const stop = new AbortController();
    const giveWay = async (): Promise<void> => stop.abort();
    await trials.tryOnce(source, clip.index, {
      ffmpeg: noting,
      ...RUN,
      signal: stop.signal,
      giveWay,
      choices: [EQUAL],
    });
    const before = told().length;
    await trials.tryOnce(source, clip.index, { ffmpeg: noting, ...RUN, choices: [EQUAL] });
    expect(told().length).toBeGreaterThan(before);
  });
});

describe('a machine that is too busy to tell', () => {
  const DAY_MS = 24 * 60 * 60_000;

  it('is asked again on another day, on three days at most; what it says then counts', async () => {
    const { ffmpeg: noting, told } = noted(['case "$*" in *framemd5*) sleep 5;; esac']);
    const folder = temporaryFolder();
    let tries = 0;
    const tryOn = async (day: number, limitMs: number): Promise<boolean> => {
      const before = told().length;
      const run = { ffmpeg: noting, ...RUN, choices: [EQUAL], limitMs };
      await new HardwareTrials(folder, () => day * DAY_MS).tryOnce(source, clip.index, run);
      tries += told().length > before ? 1 : 0;
      return told().length > before;
    };
    expect([await tryOn(1, 300), await tryOn(1, 300)]).toEqual([true, false]);
    expect(await new HardwareTrials(folder).chosen(noting, source)).toBe(null);
    expect([await tryOn(2, 300), await tryOn(3, 300), await tryOn(4, 300)]).toEqual([true, true, false]);
    expect(tries).toBe(3);
  });

  it('finds on another day what it could not find on the first', async () => {
    const folder = temporaryFolder();
    const busy = noted(['case "$*" in *framemd5*) sleep 5;; esac']).ffmpeg;
    const idle = noted(['case "$*" in *-hwaccel*) ;; *framemd5*) sleep 3;; esac']).ffmpeg;
    const run = { ...RUN, choices: [EQUAL] };
    await new HardwareTrials(folder, () => 0).tryOnce(source, clip.index, { ...run, ffmpeg: busy, limitMs: 300 });
    await new HardwareTrials(folder, () => DAY_MS).tryOnce(source, clip.index, { ...run, ffmpeg: idle });
    expect(await new HardwareTrials(folder).chosen(idle, source)).toEqual(EQUAL);
  });
});

describe('what was learnt on a clip', () => {
  it('goes with the clip, by whatever process, and what is of another make goes too', async () => {
    const folder = temporaryFolder();
    const list = join(folder, 'decoders.list');
    writeFileSync(list, `software h264 yuv420p 4321x1234 5.1\n`);
    const trials = new HardwareTrials(folder);
    const other = { ...source, storedWidth: 1234 };
    await trials.tryOnce(source, clip.index, { ffmpeg, ...RUN, choices: [WRONG] });
    await trials.tryOnce(other, clip.index, { ffmpeg, signal: NEVER, sha256: 'd'.repeat(64), choices: [WRONG] });
    const text = () => readFileSync(list, 'utf8');
    expect(text().trim().split('\n')).toHaveLength(2);
    expect(text()).not.toContain('4321');
    await trials.keepOnly(new Set([CLIP_SHA, 'e'.repeat(64)]));
    expect(text()).toContain(`${source.storedWidth}x`);
    expect(text()).not.toContain('1234x');
    await new HardwareTrials(folder).keepOnly(new Set());
    expect(text()).toBe('');
    // Nothing is made where there was nothing.
    const empty = temporaryFolder();
    await new HardwareTrials(empty).keepOnly(new Set());
    expect(existsSync(join(empty, 'decoders.list'))).toBe(false);
  });
});

describe('a copy', () => {
  /** Trials that have taken a decoder with equal pictures, which their file says: who was quicker here does not matter. */
  async function taken(lines: readonly string[] = []) {
    const { ffmpeg: noting, told } = noted(lines);
    const folder = temporaryFolder();
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, ...RUN, choices: [EQUAL] });
    const list = join(folder, 'decoders.list');
    writeFileSync(list, readFileSync(list, 'utf8').replace(/^\w+ /, 'none '));
    const trials = new HardwareTrials(folder);
    expect(await trials.chosen(noting, source)).toEqual(EQUAL);
    return { noting, trials, passes: () => told().filter((line) => line.includes('-f tee')) };
  }

  async function built(noting: Ffmpeg, trials: HardwareTrials): Promise<void> {
    const copies = new ProxyStore(temporaryFolder());
    const copy = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    const looked = { pointer: 60, named: [] };
    const run = { signal: NEVER, lookedAt: () => looked };
    await copies.build(copy, { path: clip.path, ffmpeg: noting, decoders: trials }, run);
    await expectWhole(ffmpeg, copy, clip.times);
    await copy.release();
  }

  it('is made by a decoder whose pictures were equal and came sooner, frame for frame', async () => {
    const { noting, trials, passes } = await taken();
    await built(noting, trials);
    expect(passes().length).toBeGreaterThan(0);
    expect(passes().every(isByHardware)).toBe(true);
  });

  it.each([
    ['ends', '"$real" "$@" | head -c 60000; exit 1'],
    ['is killed', '"$real" "$@" | head -c 60000; kill -9 $$'],
    [
      'complains',
      'echo "[h264 @ 0x5581] [error] hardware accelerator failed to decode picture" >&2; exec "$real" "$@"',
    ],
  ])('is made by software, without a wrong or lost frame, where the decoder %s midway', async (_, does) => {
    const { noting, trials, passes } = await taken([`case "$*" in *-hwaccel*tee*) ${does};; esac`]);
    await built(noting, trials);
    expect(passes().map(isByHardware)[0]).toBe(true);
    expect(passes().slice(1).some(isByHardware)).toBe(false);
    expect(await trials.chosen(noting, source)).toBe(null);
    const before = passes().length;
    await built(noting, trials);
    expect(passes().slice(before).some(isByHardware)).toBe(false);
  });
});
