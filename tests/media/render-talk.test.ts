import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { hashFile } from '../../core/files/hash-file.ts';
import { writeWave } from '../../core/files/wave-file.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { renderTalk, runningFilms, type TalkOrder } from '../../core/jobs/render-talk.ts';
import type { SwingSource } from '../../core/jobs/swing-source.ts';
import { EMPTY_PAGE } from '../../core/model/lesson-page.ts';
import { SWING_FILE_VERSION, type SwingFile } from '../../core/model/swing-file.ts';
import { TALK_FILE_VERSION, type Talk, type TalkEdit, type TalkEvent } from '../../core/model/talk.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import { FILM_RATE } from '../../core/talk/film-plan.ts';
import { editedBy } from '../../core/talk/talk-edits.ts';
import { heardAt } from '../../core/talk/talk-time.ts';
import { writeTalkFile } from '../../core/talk-file/read-talk-file.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { clapping, clapsIn } from '../support/claps.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { CODED_HEIGHT, CODED_WIDTH, readCode } from '../support/coded-picture.ts';
import { runBaybook } from '../support/run-baybook.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { within } from '../support/within.ts';

/** The video of a talk-through, read back by plain decodes: picture, voice, captions, chapters. */

let ffmpeg: Ffmpeg;
beforeAll(async () => {
  ffmpeg = await findFfmpeg();
});

const LENGTH = sized(9000, 120_000);
/** One frame of the video: so far mark and clap may be apart. */
const FRAME_MS = 1000 / FILM_RATE;
const SHAPE = '33333333-1111-4111-8111-000000000001';

/** Claps over all the length, with one near the start, the middle and the end. */
const claps = (count: number, length: number): number[] =>
  Array.from({ length: count }, (_, clap) => Math.round(737 + (clap * (length - 1400)) / (count - 1)));

/** A swing of one coded clip of 60 frames; a talk-through that steps to the next frame at each clap. */
async function clappedTalk(folder: string): Promise<TalkOrder> {
  const path = join(folder, 'clip.mp4');
  makeCodedClip(ffmpeg, 60, '60', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-g', '12', '-bf', '2', path]);
  const index = await readClipIndex(path, { ffmpeg });
  const frame = (number: number) => ({ index: number, pts: index.frames[number]?.pts ?? NaN });
  const take = async (name: string, first: number, times: readonly number[], length: number) => {
    await writeWave(join(folder, name), clapping(times, length), 48_000);
    const events: TalkEvent[] = [
      { at: 0, kind: 'show', panes: [{ which: 'now', view: 'face-on', frame: frame(first), part: null }] },
      ...times.map((at, clap): TalkEvent => ({ at, kind: 'frame', pane: 0, frame: frame(first + clap + 1) })),
    ];
    return { length, sound: { file: name, start: 0 }, events };
  };
  const talk: Talk = {
    takes: [await take('one.wav', 0, claps(10, LENGTH), LENGTH), await take('two.wav', 30, claps(4, 4000), 4000)],
    pieces: [{ take: 0, from: 0, to: LENGTH }],
    closing: { thoughts: ['Stay in your posture.'], drill: null },
  };
  const now: SwingSource = {
    swing: {
      ...{ studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right' },
      clips: [
        {
          ...{ view: 'face-on', width: CODED_WIDTH, height: CODED_HEIGHT, timebase: index.timebase },
          ...{ nominalRate: { num: 60, den: 1 }, captureRate: null, checkpoints: {}, marks: [] },
        },
      ],
    },
    clipOf: () => Promise.resolve({ path, index }),
  };
  return {
    ...{ talk, folder, now, then: null, goals: SHIPPED_GOALS, shape: 'wide', burnCaptions: false },
    ...{ out: join(folder, 'talk.mp4'), existing: 'refuse' },
  };
}

/** The number of the clip's frame on each picture of the video; null where none can be read (the closing card). */
function codesIn(path: string): (number | null)[] {
  const [width, height] = [(1080 * CODED_WIDTH) / CODED_HEIGHT, 1080];
  const crop = `crop=${width}:${height}:${(1920 - width) / 2}:0,scale=${CODED_WIDTH}:${CODED_HEIGHT},format=gray`;
  const bytes = ffmpegNow(ffmpeg, [
    '-i',
    path,
    '-map',
    '0:v:0',
    '-fps_mode',
    'passthrough',
    '-vf',
    crop,
    '-f',
    'rawvideo',
    '-',
  ]);
  const size = CODED_WIDTH * CODED_HEIGHT;
  return Array.from({ length: bytes.length / size }, (_, place) => {
    const data = bytes.subarray(place * size, (place + 1) * size);
    try {
      return readCode({ width: CODED_WIDTH, height: CODED_HEIGHT, data, step: 1 });
    } catch {
      return null;
    }
  });
}

interface Probed {
  readonly streams: readonly Record<string, string>[];
  readonly chapters: readonly { readonly start_time: string; readonly tags: { readonly title: string } }[];
}

function probed(path: string): Probed {
  const run = spawnSync('ffprobe', ['-v', 'error', '-show_streams', '-show_chapters', '-of', 'json', path]);
  return JSON.parse(run.stdout.toString()) as Probed;
}

/** Each clap that is heard has its frame beside it, within one frame of the video. */
function expectTogether(path: string, talk: Talk): void {
  const codes = codesIn(path);
  const heard = clapsIn(ffmpeg, path);
  const steps = talk.takes.flatMap((take, number) =>
    take.events.flatMap((event) => {
      const at = event.kind === 'frame' ? heardAt(talk, number, event.at) : null;
      return event.kind === 'frame' && at !== null ? [{ at, code: event.frame.index }] : [];
    }),
  );
  steps.sort((one, other) => one.at - other.at);
  expect(heard).toHaveLength(steps.length);
  for (const [place, { at, code }] of steps.entries()) {
    const seen = (codes.indexOf(code) * 1000) / FILM_RATE;
    within(heard[place] ?? NaN, at, 2, `clap ${place} is heard`);
    within(seen, heard[place] ?? NaN, FRAME_MS, `frame ${code} is seen with clap ${place}`);
  }
}

test('frame and clap are together at the start, the middle and the end; the file is what phones and mail take', async () => {
  const order = await clappedTalk(temporaryFolder());
  const run = { signal: new AbortController().signal, report: () => undefined };
  const { pictures, painted } = await renderTalk(order, ffmpeg, run);
  expectTogether(order.out, order.talk);
  // Ten steps, the first picture, the card: all others are shown again without being painted.
  expect(painted).toBe(12);
  const [video, sound, ...others] = probed(order.out).streams;
  expect(video).toMatchObject({
    ...{ codec_name: 'h264', width: 1920, height: 1080, pix_fmt: 'yuv420p', color_space: 'bt709' },
    ...{ r_frame_rate: '30/1', avg_frame_rate: '30/1', nb_frames: String(pictures) },
  });
  expect(sound).toMatchObject({ codec_name: 'aac', sample_rate: '48000' });
  expect(others).toEqual([]);
  // What is needed to play stands before what is played.
  const bytes = readFileSync(order.out);
  expect(bytes.indexOf('moov')).toBeLessThan(bytes.indexOf('mdat'));
  expect([runningFilms(), runningCount()]).toEqual([0, 0]);
  expect(readdirSync(order.folder).filter((name) => name.includes('part') || name.startsWith('.'))).toEqual([]);
});

test('also after a cut and a retake', async () => {
  const order = await clappedTalk(temporaryFolder());
  const edits: readonly TalkEdit[] = [
    { kind: 'cut', spans: [{ from: 2511, to: 3817 }] },
    { kind: 'retake', from: LENGTH - 5000, take: 1 },
  ];
  const talk = editedBy(order.talk, edits);
  await renderTalk({ ...order, talk }, ffmpeg, UNWATCHED);
  expectTogether(order.out, talk);
});

test('captions and chapters are tracks of the file; upright it is 1080 x 1920; the voice has the usual loudness', async () => {
  const order = await clappedTalk(temporaryFolder());
  const [first, second] = order.talk.takes;
  if (first === undefined || second === undefined) throw new Error('two takes were made');
  const words: TalkEvent[] = [
    { at: 0, kind: 'chapter', title: 'Posture; and = more' },
    { at: 500, kind: 'caption', text: 'Stand <tall> & {still}.' },
    { at: 2000, kind: 'caption', text: '' },
    { at: 3000, kind: 'chapter', title: 'Hands' },
    {
      ...{ at: 3000, kind: 'draw', which: 'now', view: 'face-on', frame: { index: 0, pts: 0 } },
      shape: {
        kind: 'line',
        id: SHAPE,
        a: { x: 0, y: 90 },
        b: { x: 190, y: 90 },
        role: null,
        lengthMm: null,
        carried: true,
      },
    },
  ];
  const events = [...first.events, ...words].sort((one, other) => one.at - other.at);
  // A steady tone, of which the loudness is known to be measured.
  const tone = Float32Array.from(
    { length: LENGTH * 48 },
    (_, at) => 0.05 * Math.sin((2 * Math.PI * 1000 * at) / 48_000),
  );
  await writeWave(join(order.folder, 'tone.wav'), tone, 48_000);
  const talk = { ...order.talk, takes: [{ ...first, sound: { file: 'tone.wav', start: 0 }, events }, second] };
  await renderTalk({ ...order, talk, shape: 'phone', burnCaptions: true }, ffmpeg, UNWATCHED);
  const { streams, chapters } = probed(order.out);
  expect(streams[0]).toMatchObject({ width: 1080, height: 1920 });
  expect(streams.find((stream) => stream['codec_type'] === 'subtitle')).toMatchObject({ codec_name: 'mov_text' });
  expect(chapters.map(({ start_time, tags }) => [Number(start_time), tags.title])).toEqual([
    [0, 'Posture; and = more'],
    [3, 'Hands'],
  ]);
  const captions = ffmpegNow(ffmpeg, ['-i', order.out, '-map', '0:s:0', '-f', 'srt', '-']).toString();
  expect(captions).toMatch(/00:00:00,500 --> 00:00:02,000\s+Stand ‹tall› & \(still\)\./);
  const report = spawnSync(ffmpeg.path, [
    '-i',
    order.out,
    '-t',
    String(LENGTH / 1000),
    '-af',
    'ebur128',
    '-f',
    'null',
    '-',
  ]);
  const loud = [...report.stderr.toString().matchAll(/I: +(-?[\d.]+) LUFS/g)].at(-1)?.[1];
  within(Number(loud), -16, 1, 'loudness');
});

test('a cancel leaves nothing behind, and a file that is there is left alone', async () => {
  const order = await clappedTalk(temporaryFolder());
  const cancel = new AbortController();
  const run = { signal: cancel.signal, report: (_: string, done: number) => done > 0 && cancel.abort() };
  await expect(renderTalk(order, ffmpeg, run)).rejects.toMatchObject({ code: 'cancelled' });
  expect(existsSync(order.out)).toBe(false);
  expect(readdirSync(order.folder).sort()).toEqual(['clip.mp4', 'one.wav', 'two.wav']);
  expect([runningFilms(), runningCount()]).toEqual([0, 0]);
  await expect(renderTalk({ ...order, out: join(order.folder, 'one.wav') }, ffmpeg, UNWATCHED)).rejects.toMatchObject({
    code: 'file-exists',
  });
});

test('a sound that is gone is named, and a talk-through without any is silent', async () => {
  const order = await clappedTalk(temporaryFolder());
  const [first] = order.talk.takes;
  if (first === undefined) throw new Error('a take was made');
  const talkWith = (sound: typeof first.sound): Talk => ({
    ...order.talk,
    takes: [{ ...first, sound }],
    pieces: [{ take: 0, from: 0, to: 2000 }],
  });
  await expect(
    renderTalk({ ...order, talk: talkWith({ file: 'gone.wav', start: 0 }) }, ffmpeg, UNWATCHED),
  ).rejects.toMatchObject({ code: 'file-not-found' });
  await renderTalk({ ...order, talk: talkWith(null) }, ffmpeg, UNWATCHED);
  expect(probed(order.out).streams.map((stream) => stream['codec_name'])).toEqual(['h264', 'aac']);
  expect(clapsIn(ffmpeg, order.out).length).toBeLessThanOrEqual(1);
});

test('baybook talk makes the same of a file, and says what is wrong with one in a sentence', async () => {
  const folder = temporaryFolder();
  const order = await clappedTalk(folder);
  const clip = order.now.swing.clips[0];
  const [take] = order.talk.takes;
  if (clip === undefined || take === undefined) throw new Error('a clip and a take were made');
  const { sha256 } = await hashFile(join(folder, 'clip.mp4'));
  const { date, club, handedness } = order.now.swing;
  const now: SwingFile = {
    ...{
      format: 'baybook-swing',
      version: SWING_FILE_VERSION,
      student: { firstName: 'Robin' },
      pins: [],
      page: EMPTY_PAGE,
    },
    ...{ lesson: { date, club, handedness }, clips: [{ ...clip, file: 'clip.mp4', sha256 }] },
  };
  const log = join(folder, 'talk.json');
  const pieces = [{ take: 0, from: 0, to: 1000 }];
  await writeTalkFile(log, {
    ...{ format: 'baybook-talk', version: TALK_FILE_VERSION, swings: { now, then: null } },
    ...{ takes: [take], pieces, closing: order.talk.closing },
  });
  const made = await runBaybook(['talk', log, '--out', order.out, '--phone', '--json']);
  expect(made).toMatchObject({ code: 0 });
  const answer: unknown = JSON.parse(made.out);
  expect(answer).toMatchObject({ out: order.out, painted: 3 });
  expect(probed(order.out).streams[0]).toMatchObject({ codec_name: 'h264', width: 1080, height: 1920 });
  const again = await runBaybook(['talk', log, '--out', order.out]);
  expect(again).toMatchObject({ code: 2, said: expect.stringContaining('exists already') });
  const wrong = await runBaybook(['talk', join(folder, 'clip.mp4'), '--out', join(folder, 'x.mp4')]);
  expect(wrong).toMatchObject({ code: 2, said: expect.stringContaining('talk-through') });
});
