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
    expect(await compare(hardwareChoice('nosuch'))).toEqual({ ran: false });
  });

  it('is worth using only where it ran, gave equal pictures and came clearly sooner', () => {
    expect(isWorthUsing({ ran: false })).toBe(false);
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
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, signal: NEVER });
    for (const name of listed) expect(told().filter((line) => line.includes(`-hwaccel ${name} `))).not.toEqual([]);
    const chosen = await new HardwareTrials(folder).chosen(noting, source);
    // On a computer that has one, only what was told apart from nothing may have been taken.
    if (chosen !== null) expect(listed).toContain(chosen.name);
    const before = told().length;
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, signal: NEVER });
    expect(told().length).toBe(before);
    const other = { ...source, storedWidth: source.storedWidth + 2 };
    await new HardwareTrials(folder).tryOnce(other, clip.index, { ffmpeg: noting, signal: NEVER });
    expect(told().length).toBeGreaterThan(before);
  });

  it('is not used where its pictures differ, however quick', async () => {
    const { ffmpeg: slow } = noted(['case "$*" in *skip_loop*) ;; *) sleep 0.4;; esac']);
    const trials = new HardwareTrials(temporaryFolder());
    await trials.tryOnce(source, clip.index, { ffmpeg: slow, signal: NEVER, choices: [WRONG] });
    expect(await trials.chosen(slow, source)).toBe(null);
  });

  it('is used where its pictures are equal and come sooner, and known again at the next start', async () => {
    const { ffmpeg: slow } = noted(['case "$*" in *-hwaccel*) ;; *framemd5*) sleep 3;; esac']);
    const folder = temporaryFolder();
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: slow, signal: NEVER, choices: [EQUAL] });
    expect(await new HardwareTrials(folder).chosen(slow, source)).toEqual(EQUAL);
    // Another program may decode otherwise.
    expect(await new HardwareTrials(folder).chosen({ ...slow, version: '9.9' }, source)).toBe(null);
  });

  it('counts as not tried when the trial was broken off', async () => {
    const { ffmpeg: noting, told } = noted();
    const trials = new HardwareTrials(temporaryFolder());
    const stop = new AbortController();
    const giveWay = async (): Promise<void> => stop.abort();
    await trials.tryOnce(source, clip.index, { ffmpeg: noting, signal: stop.signal, giveWay, choices: [EQUAL] });
    const before = told().length;
    await trials.tryOnce(source, clip.index, { ffmpeg: noting, signal: NEVER, choices: [EQUAL] });
    expect(told().length).toBeGreaterThan(before);
  });
});

describe('a copy', () => {
  /** Trials that have taken a decoder with equal pictures, which their file says: who was quicker here does not matter. */
  async function taken(lines: readonly string[] = []) {
    const { ffmpeg: noting, told } = noted(lines);
    const folder = temporaryFolder();
    await new HardwareTrials(folder).tryOnce(source, clip.index, { ffmpeg: noting, signal: NEVER, choices: [EQUAL] });
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
