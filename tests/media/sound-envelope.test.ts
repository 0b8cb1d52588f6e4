import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loudestFrame } from '../../core/time/sound-on-strip.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runFfmpeg, runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { readSoundEnvelope } from '../../core/video/decode/sound-envelope.ts';
import { ClipSounds } from '../../electron/clip-sounds.ts';
import { within } from '../support/within.ts';

/** The click comes at 1.200 s of a clip of 2 seconds, 30 frames a second. */
const CLICK = 1.2;
const PICTURES = ['-f', 'lavfi', '-i', 'testsrc2=s=160x120:r=30:d=2'];
const HUM_AND_CLICK = [
  '-f',
  'lavfi',
  '-i',
  `aevalsrc='0.05*sin(440*2*PI*t)+if(between(t,${String(CLICK)},${String(CLICK + 0.003)}),0.9,0)':s=48000:d=2`,
];
const CODED = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-g', '15', '-bf', '2'];

let folder: string;
let ffmpeg: Ffmpeg;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'baybook-sound-'));
  ffmpeg = await findFfmpeg();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function make(name: string, args: readonly string[]): Promise<string> {
  const path = join(folder, name);
  const { end } = await runFfmpeg(ffmpeg, ['-v', 'error', ...args, path]);
  expect(end.stderrTail).toBe('');
  return path;
}

async function envelopeOf(path: string) {
  const index = await readClipIndex(path, { ffmpeg });
  return { index, sound: await readSoundEnvelope(path, index, { ffmpeg }) };
}

/** Seconds of the clip's clock at which it is loudest. */
async function loudestAt(path: string): Promise<{ readonly seconds: number; readonly frame: number | null }> {
  const { index, sound } = await envelopeOf(path);
  if (sound === null) throw new Error('no sound');
  return {
    seconds: sound.from + (sound.peaks.indexOf(255) + 0.5) * sound.step,
    frame: loudestFrame(index, sound),
  };
}

describe('the loudest moment', () => {
  test.each([
    ['uncompressed, in MOV', 'plain.mov', ['-c:a', 'pcm_s16le']],
    ['uncompressed, in Matroska', 'plain.mkv', ['-c:a', 'pcm_s16le']],
    ['AAC, whose encoder begins earlier and is cut by the file', 'aac.mp4', ['-c:a', 'aac']],
  ])('%s lies at its time and on its frame', async (_name, file, sound) => {
    const { seconds, frame } = await loudestAt(await make(file, [...PICTURES, ...HUM_AND_CLICK, ...CODED, ...sound]));
    // A bin is 5 ms; AAC smears a click by up to its block of 21 ms.
    within(seconds, CLICK, file.startsWith('aac') ? 0.025 : 0.005);
    within(frame ?? NaN, 36, 1);
  });

  test('sound that begins later than the pictures stays where it is', async () => {
    const late = ['-itsoffset', '0.4', ...HUM_AND_CLICK];
    const path = await make('late.mov', [...PICTURES, ...late, ...CODED, '-c:a', 'pcm_s16le', '-t', '2']);
    within((await loudestAt(path)).seconds, CLICK + 0.4, 0.005);
  });

  test('what an edit list hides at the beginning is not counted', async () => {
    const whole = await make('whole.mov', [...PICTURES, ...HUM_AND_CLICK, ...CODED, '-c:a', 'pcm_s16le']);
    const cut = await make('cut.mov', ['-ss', '0.7', '-i', whole, '-c', 'copy']);
    const { seconds, frame } = await loudestAt(cut);
    within(seconds, CLICK - 0.7, 0.006);
    within(frame ?? NaN, 15, 1);
  });
});

test('it covers the pictures in bins of 5 ms, fewer and longer for a long clip', async () => {
  const { index, sound } = await envelopeOf(
    await make('bins.mov', [...PICTURES, ...HUM_AND_CLICK, ...CODED, '-c:a', 'pcm_s16le']),
  );
  expect(sound?.step).toBe(0.005);
  expect(sound?.peaks).toHaveLength(400);
  expect(Math.max(...(sound?.peaks ?? []))).toBe(255);
  expect(index.frames).toHaveLength(60);
  const args = ['-f', 'lavfi', '-i', 'color=s=32x32:r=2:d=300', '-f', 'lavfi', '-i', 'sine=d=300:r=8000'];
  const long = await envelopeOf(await make('long.mov', [...args, ...CODED, '-c:a', 'pcm_s16le']));
  expect(long.sound?.peaks.length).toBeLessThanOrEqual(20_000);
  within((long.sound?.peaks.length ?? 0) * (long.sound?.step ?? 0), 300, 0.1);
});

test('a clip without sound has none, nor has one of silence', async () => {
  expect((await envelopeOf(await make('mute.mp4', [...PICTURES, ...CODED]))).sound).toBeNull();
  const silence = ['-f', 'lavfi', '-i', 'anullsrc=r=48000', '-t', '2'];
  const path = await make('silent.mov', [...PICTURES, ...silence, ...CODED, '-c:a', 'pcm_s16le']);
  expect((await envelopeOf(path)).sound).toBeNull();
});

test('reading is stopped when it is not wanted any more', async () => {
  const path = await make('stop.mov', [...PICTURES, ...HUM_AND_CLICK, ...CODED, '-c:a', 'pcm_s16le']);
  const index = await readClipIndex(path, { ffmpeg });
  const failure = await readSoundEnvelope(path, index, { ffmpeg, signal: AbortSignal.abort() }).catch(
    (error: unknown) => error,
  );
  expect(failure).toMatchObject({ code: 'cancelled' });
});

test('of a clip that is closed or a program that ends, no ffmpeg goes on reading', async () => {
  // An hour of it takes seconds to read.
  const tone = ['-f', 'lavfi', '-i', 'sine=d=3600:r=8000'];
  const pictures = ['-f', 'lavfi', '-i', 'color=s=32x32:r=1:d=3600'];
  const path = await make('hour.mov', [...pictures, ...tone, ...CODED, '-c:a', 'pcm_s16le']);
  const index = await readClipIndex(path, { ffmpeg });
  const sounds = new ClipSounds((_clipId, signal) => readSoundEnvelope(path, index, { ffmpeg, signal }));
  for (const stop of [() => sounds.close('a'), () => sounds.end()]) {
    const asked = sounds.sound('a').catch((error: unknown) => error);
    await expect.poll(runningCount, { interval: 5 }).toBe(1);
    await stop();
    expect(runningCount()).toBe(0);
    expect(await asked).toMatchObject({ code: 'cancelled' });
  }
});
