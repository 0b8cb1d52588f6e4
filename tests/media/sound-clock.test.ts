import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { loudestFrame } from '../../core/time/sound-on-strip.ts';
import { ticksToSeconds } from '../../core/time/rational.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import { readPictureClock, shiftAt } from '../../core/video/index/picture-clock.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readSoundEnvelope } from '../../core/video/decode/sound-envelope.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { withEdits, withFirstKey } from '../support/edit-lists.ts';
import type { Edits } from '../support/edit-lists.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { within } from '../support/within.ts';

const ffmpeg = await findFfmpeg();
const TRIMMED = 'timing/sample_edit_list.mp4';
const NO_KEY_BEFORE = 'timing/sample_edit_list_no_sync_frame_before_edit.mp4';

describe('published times of all samples (androidx/media)', () => {
  itOn(TRIMMED, NO_KEY_BEFORE).each([
    [TRIMMED, 0.011667],
    [NO_KEY_BEFORE, 0.348977],
  ])('%s: time stamps and the shift give the dump, to its microsecond', async (file, seconds) => {
    const path = outsideMedia(file);
    const index = await readClipIndex(path, { ffmpeg });
    const clock = await readPictureClock(path, { ffmpeg });
    within(shiftAt(clock, 0), seconds, 2e-6);
    const dump = readFileSync(`${path}.0.dump`, 'utf8');
    const video = dump.slice(dump.indexOf('track 0:'), dump.indexOf('track 1:'));
    const published = new Set([...video.matchAll(/^ +time = (-?\d+)$/gm)].map((match) => Number(match[1])));
    const ours = index.frames.map(({ pts }) => ticksToSeconds(pts, index.timebase) + shiftAt(clock, pts));
    // The dump begins at the first key picture where the edit has none before it; whole microseconds, rounded down.
    const listed = ours.filter((time) => {
      const micros = Math.floor(time * 1e6 + 1e-3);
      return [micros, micros - 1, micros + 1].some((each) => published.has(each));
    });
    expect(listed.length).toBe(file === NO_KEY_BEFORE ? published.size : ours.length);
  });

  itOn(NO_KEY_BEFORE)('the key picture of the clip without one before its edit is at +315.644 ms', async () => {
    const path = outsideMedia(NO_KEY_BEFORE);
    const { frames, timebase } = await readClipIndex(path, { ffmpeg });
    const key = frames.find((frame) => frame.key);
    const pts = key?.pts ?? Number.NaN;
    // Its name stays what it was.
    expect([frames.findIndex((frame) => frame.key), pts]).toEqual([9, -3000]);
    within(ticksToSeconds(pts, timebase) + shiftAt(await readPictureClock(path, { ffmpeg }), pts), 0.315644, 1e-6);
  });
});

/** 75 pictures, 25 a second: picture n carries the number n, and the burst is heard while picture 40 is shown. */
const RATE = 25;
const COUNT = 75;
const BURST_AT = 40;
const BURST = `if(between(t,${BURST_AT / RATE + 0.01},${BURST_AT / RATE + 0.03}),0.9,0)`;
const SOUND = [
  '-f',
  'lavfi',
  '-i',
  `aevalsrc='0.02*sin(440*2*PI*t)+${BURST}':s=48000:d=3`,
  '-map',
  '0:v',
  '-map',
  '1:a',
];
const H264 = [
  '-c:v',
  'libx264',
  '-preset',
  'fast',
  '-pix_fmt',
  'yuv420p',
  '-g',
  '12',
  '-video_track_timescale',
  '12800',
];
const B = [...H264, '-bf', '3', '-x264-params', 'b-adapt=0'];
const PCM = ['-c:a', 'pcm_s16le'];

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'baybook-clock-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let made = 0;
function make(args: readonly string[], edits: Edits | null = null, ending = 'mov', change = (file: Buffer) => file) {
  const path = join(folder, `${String((made += 1))}.${ending}`);
  makeCodedClip(ffmpeg, COUNT, String(RATE), [...SOUND, ...args, path]);
  if (edits !== null) writeFileSync(path, change(withEdits(readFileSync(path), edits)));
  return path;
}

/** The number that the picture carries which Baybook finds to be the loudest. */
async function pictureAtBurst(path: string): Promise<number | undefined> {
  const index = await readClipIndex(path, { ffmpeg, verify: true });
  const sound = await readSoundEnvelope(path, index, { ffmpeg });
  if (sound === null) throw new Error('no sound');
  const codes = decodedCodes(ffmpeg, path);
  expect(index.frames).toHaveLength(codes.length);
  const frame = loudestFrame(index, sound);
  return frame === null ? undefined : codes[frame];
}

/** Sound and pictures lose the same from their beginnings, so that the burst is still heard with its picture. */
const cut = (seconds: number, encoderDelay = 0): Edits => ({
  pictures: [{ seconds: 3 - seconds, media: seconds + DELAY }],
  sound: [{ seconds: 3 - seconds, media: seconds + encoderDelay }],
});
/** Samples that an AAC encoder writes before the first one it was given. */
const AAC_DELAY = 1024 / 48_000;
/** With three B-frames in a row that lean on each other the first picture is shown two pictures after it is decoded. */
const DELAY = 2 / RATE;

describe('the burst is found at the picture it was made with', () => {
  it.each([
    ['no edits at all', make2([...H264, '-bf', '0', ...PCM], { pictures: null, sound: null })],
    ["an edit list that only takes the B-frames' delay away", make2([...B, ...PCM])],
    ['B-frames and AAC in MP4', make2([...B, '-c:a', 'aac'], null, 'mp4')],
    ['fragments', make2([...B, '-c:a', 'aac', '-movflags', 'frag_keyframe+delay_moov'], null, 'mp4')],
    ['Matroska', make2([...B, ...PCM], null, 'mkv')],
    ['edits into the middle of a group', make2([...B, ...PCM], cut(0.62))],
    ['edits just after a key picture', make2([...B, ...PCM], cut(0.5))],
    ['edits just before a key picture', make2([...B, ...PCM], cut(0.94))],
    ['edits between two pictures', make2([...B, ...PCM], cut(0.705))],
    ['edits told in 64 bits', make2([...B, ...PCM], { ...cut(0.62), long: true })],
    ['edits and AAC', make2([...B, '-c:a', 'aac'], cut(0.62, AAC_DELAY), 'mp4')],
    ['no key picture before the edit', make2([...B, ...PCM], cut(0.62), 'mov', (file) => withFirstKey(file, 25))],
    [
      'sound that starts late by an empty edit',
      make2([...B, ...PCM], {
        pictures: [{ seconds: 2.38, media: 0.62 + DELAY }],
        sound: [
          { seconds: 0.3, media: null },
          { seconds: 2.08, media: 0.92 },
        ],
      }),
    ],
    [
      'pictures that start late by an empty edit',
      make2([...B, ...PCM], {
        pictures: [
          { seconds: 0.4, media: null },
          { seconds: 1.98, media: 1.02 + DELAY },
        ],
        sound: [{ seconds: 2.38, media: 0.62 }],
      }),
    ],
    [
      'a piece cut out before it',
      make2([...B, ...PCM], {
        pictures: [
          { seconds: 0.4, media: DELAY },
          { seconds: 1.9, media: 1.1 + DELAY },
        ],
        sound: [
          { seconds: 0.4, media: 0 },
          { seconds: 1.9, media: 1.1 },
        ],
      }),
    ],
  ])('%s', async (_name, path) => {
    expect(await pictureAtBurst(path())).toBe(BURST_AT);
  });

  function make2(...order: Parameters<typeof make>): () => string {
    return () => make(...order);
  }
});

itOn(NO_KEY_BEFORE)('a part that is kept of a clip has its sound at the pictures it had it at', async () => {
  const path = outsideMedia(NO_KEY_BEFORE);
  const index = await readClipIndex(path, { ffmpeg });
  const out = join(folder, 'kept.mp4');
  const last = index.frames.length - 1;
  const { first, sound } = await keepSpan({ ffmpeg, path, index, from: 12, to: last, out });
  expect([first, sound]).toEqual([9, true]);
  const whole = await loudestSeconds(path, index);
  const part = await loudestSeconds(out, await readClipIndex(out, { ffmpeg }));
  const cutAway = ticksToSeconds((index.frames[first]?.pts ?? 0) - (index.frames[0]?.pts ?? 0), index.timebase);
  // A packet of sound and two bins of 5 ms: sound is cut between packets, and two bins are about as loud.
  within(part, whole - cutAway, 1024 / 44_100 + 0.01);
});

/** When it is loudest, seconds after the first picture. */
async function loudestSeconds(path: string, index: ClipIndex): Promise<number> {
  const sound = await readSoundEnvelope(path, index, { ffmpeg });
  if (sound === null) throw new Error('no sound');
  return (sound.peaks.indexOf(255) + 0.5) * sound.step;
}
