import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { createFrameCache } from '../../core/video/decode/frame-cache.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { readClipIndex, readClipIndexReport } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { fileJobCount } from '../../core/video/process/file-job.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import { drawn } from '../support/drawn.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { decodedSums, expectKept } from '../support/kept-span.ts';
import { buildCopy, expectCopies, timesOf } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { sized } from '../support/sized.ts';
import { expectRefused } from '../support/trouble.ts';
import { pixelsOfAll } from '../support/window-pixels.ts';
import { writeMatrix } from '../support/write-matrix.ts';

const ffmpeg = await findFfmpeg();
/** Frames about a key picture that are read as stills: where entering a clip goes wrong first. */
const ABOUT_A_KEY = sized(1, 4);
/** Key pictures about which stills are read: the first that are met, and always the last. */
const MOST_KEYS = sized(0, Infinity);
/** Frames either side of a key picture in the middle that are walked through; the ends always are. */
const WALKED = sized(5, Infinity);

afterAll(() => {
  expect([runningCount(), fileJobCount()]).toEqual([0, 0]);
});

function picks(index: ClipIndex): number[] {
  const last = index.frames.length - 1;
  const near = new Set(sized([last], [0, last]));
  const keys = keysOf(index);
  for (const at of [...keys.slice(0, MOST_KEYS), ...keys.slice(-1)])
    for (let i = at - ABOUT_A_KEY; i <= at + ABOUT_A_KEY; i += 1) near.add(Math.min(last, Math.max(0, i)));
  return [...near].sort((a, b) => a - b);
}

const keysOf = ({ frames }: ClipIndex): number[] => frames.flatMap(({ key }, frame) => (key ? [frame] : []));

/** Frames that a window walks through: the ends, and those about the key picture in the middle. */
function walked(index: ClipIndex, shown: readonly number[]): number[] {
  const keys = keysOf(index);
  const middle = keys[Math.floor(keys.length / 2)] ?? 0;
  return shown.filter((frame, place) => place < 2 || place >= shown.length - 2 || Math.abs(frame - middle) <= WALKED);
}

/** The codes of stills, two at a time. */
async function stillCodes(path: string, index: ClipIndex, frames: readonly number[]): Promise<number[]> {
  const codes: number[] = [];
  const every = async (first: number): Promise<void> => {
    for (let i = first; i < frames.length; i += 2) {
      const still = await readStill(path, index, frames[i] ?? -1, { ffmpeg, as: 'rgba' });
      if (still !== null) codes[i] = readCode({ ...still, step: 4 });
    }
  };
  await Promise.all([every(0), every(1)]);
  return codes;
}

/** The codes that a window delivers: a jump into the middle, then backwards, then forwards. */
async function windowCodes(
  path: string,
  index: ClipIndex,
  kind: 'proxy' | 'sharp',
  all: readonly number[] = [...index.frames.keys()],
): Promise<{ asked: number[]; got: number[] }> {
  const window = openFrameWindow(path, index, { ffmpeg, kind, cache: createFrameCache(1_000_000) });
  const asked = [all[Math.floor(all.length / 2)] ?? 0, ...all.toReversed(), ...all];
  const pictures: WindowPicture[] = [];
  for (const frame of asked) pictures.push(await window.frame(frame));
  await window.close();
  return { asked, got: pixelsOfAll(ffmpeg, pictures).map(readCode) };
}

/** From the start, one frame at a key picture, across some, near the end, the end, everything. */
function spansOf(index: ClipIndex): [number, number][] {
  const last = index.frames.length - 1;
  const keys = keysOf(index).filter((frame) => frame > 0);
  const [near, far] = [keys[0] ?? last, keys.at(-1) ?? last];
  const spans: [number, number][] = [
    [0, 5],
    [near, near],
    [near - 3, far + 1],
    [last - 4, last - 3],
    [last, last],
    [0, last],
  ];
  return spans.map(([from, to]) => [Math.max(0, from), Math.min(last, Math.max(0, to))]);
}

interface ReadClip {
  readonly path: string;
  readonly index: ClipIndex;
  /** The frames that have a picture. */
  readonly shown: readonly number[];
  /** The codes that a plain decode shows. */
  readonly truth: readonly number[];
  /** Number in the list of clips. */
  readonly place: number;
}

async function expectStills({ path, index, shown, truth }: ReadClip): Promise<void> {
  const frames = picks(index).filter((frame) => shown.includes(frame));
  expect(await stillCodes(path, index, frames)).toEqual(frames.map((frame) => truth[frame]));
}

async function expectWalk({ path, index, shown, truth }: ReadClip, kind: 'proxy' | 'sharp'): Promise<void> {
  const { asked, got } = await windowCodes(path, index, kind, walked(index, shown));
  expect(got).toEqual(asked.map((frame) => truth[frame]));
}

/** They give their pictures no times, so that the file cannot be cut by them. */
const UNCUT = new Set(['times.avi']);

async function expectParts({ path, index, place }: ReadClip): Promise<void> {
  if (UNCUT.has(basename(path))) {
    const folder = temporaryFolder();
    const order = { ffmpeg, path, index, from: 0, to: 5, out: join(folder, 'out.avi') };
    await expectRefused(keepSpan(order), 'format-refused', /every picture a time\. Add the whole clip/);
    expect(readdirSync(folder)).toEqual([]);
    return;
  }
  const clip = { path, index, sums: decodedSums(ffmpeg, path) };
  // Some at a time: most of the time goes into starting processes.
  const spans = drawn(spansOf(index), Math.floor(place / CHECKS.length));
  await Promise.all(spans.map(([from, to]) => expectKept(ffmpeg, clip, from, to)));
}

/** What gives frames by their numbers, each in its own way. */
const CHECKS: readonly (readonly [name: string, check: (clip: ReadClip) => Promise<void>])[] = [
  ['as stills', expectStills],
  ['in small, back and forth', (clip) => expectWalk(clip, 'proxy')],
  ['sharp, back and forth', (clip) => expectWalk(clip, 'sharp')],
  ['in a part that is kept, bit for bit, at the same distances', expectParts],
];

/** The only clip of these that a decoder finds damaged; what it remarks on the others spoils no picture that is shown. */
const COMPLAINED_ABOUT = ['cut-short.mp4'];

/** A third of them a commit, all in the long run. */
const CLIPS = drawn(
  ILL_CLIPS.map((clip, place) => ({ ...clip, place })),
  0,
  Math.ceil(ILL_CLIPS.length / 3),
);

describe.each(CLIPS)('$name', ({ file, make, place }) => {
  const checks = drawn(CHECKS, place);
  const names = checks.map(([name]) => name).join('; ');
  it(`gives every frame that a plain decode shows, under its own number, from its copy, and ${names}`, async () => {
    const folder = temporaryFolder();
    const path = join(folder, file);
    make(ffmpeg, path, join(folder, `scratch-${file}`));
    const truth = decodedCodes(ffmpeg, path);
    const { index, report } = await readClipIndexReport(path, { ffmpeg, verify: true });
    // Of a clip cut short, what broke off keeps its number and is damaged; it has no picture to be asked for.
    const shown = [...index.frames.keys()].filter((frame) => !isDamaged(index, frame));
    if (report.damaged === 0) expect(shown).toHaveLength(truth.length);
    expect(index.frames.length).toBeGreaterThanOrEqual(truth.length);
    for (const [, check] of checks) await check({ path, index, shown, truth, place });
    await expectCopies({ path, ffmpeg }, index, { truth, place, errors: COMPLAINED_ABOUT.includes(file) });

    // Without the decode the table alone is as good, but for the damage.
    expect(await readClipIndex(path, { ffmpeg })).toEqual({ ...index, damage: [] });
  });
});

describe('a clip of 48 frames at 30 a second', () => {
  it('has steady times from its first frame on, in every container', async () => {
    for (const file of ['constant.mp4', 'plain.mkv', 'plain.ts', 'fragments.mp4', 'late.mp4', 'plain.flv']) {
      const clip = ILL_CLIPS.find((ill) => ill.file === file);
      const path = join(temporaryFolder(), file);
      clip?.make(ffmpeg, path, '');
      const index = await readClipIndex(path, { ffmpeg });
      expect({ file, variable: index.variable, rate: index.nominalRate, count: index.frames.length }).toEqual({
        file,
        variable: false,
        rate: { num: 30, den: 1 },
        count: 48,
      });
    }
  });
});

/** How the picture is stored so that the matrix brings it upright again. */
const TURNED = [
  ['turned a quarter', 'transpose=cclock', [0, 1, -1, 0], 90, false],
  ['turned half', 'hflip,vflip', [-1, 0, 0, -1], 180, false],
  ['turned three quarters', 'transpose=clock', [0, -1, 1, 0], 270, false],
  ['mirrored', 'hflip', [-1, 0, 0, 1], 0, true],
  ['upside down, mirrored', 'vflip', [1, 0, 0, -1], 180, true],
  ['mirrored over one diagonal', 'transpose=cclock_flip', [0, 1, 1, 0], 270, true],
  ['mirrored over the other', 'transpose=clock_flip', [0, -1, -1, 0], 90, true],
] as const;

describe('turned and mirrored clips', () => {
  it.each(drawn(TURNED, 0, 3))('%s', async (_, stored, matrix, turn, mirrored) => {
    const path = join(temporaryFolder(), 'turned.mp4');
    makeCodedClip(ffmpeg, 3, '30', ['-vf', stored, '-c:v', 'libx264', '-pix_fmt', 'yuv420p', path]);
    writeMatrix(path, matrix);
    const index = await readClipIndex(path, { ffmpeg });
    expect(index).toMatchObject({ width: 192, height: 128, turn, mirrored });
    expect(await stillCodes(path, index, [0, 1, 2])).toEqual([0, 1, 2]);
    const { asked, got } = await windowCodes(path, index, 'sharp');
    expect(got).toEqual(asked);
    const { copy } = await buildCopy(temporaryFolder(), { path, ffmpeg }, index);
    expect([copy.width, copy.height]).toEqual([192, 128]);
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual([0, 1, 2]);
    await copy.release();
  });
});
