import { mkdtemp, open, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodedStart } from '../../core/time/first-picture.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import { readCodedStart } from '../../core/video/index/coded-start.ts';
import { askCodedStart } from '../../core/video/index/read-container.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { withEdits } from '../support/edit-lists.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { sized } from '../support/sized.ts';
import { expectThrown } from '../support/trouble.ts';

let folder: string;
let ffmpeg: Ffmpeg;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'baybook-start-'));
  ffmpeg = await findFfmpeg();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function startOf(path: string): Promise<CodedStart | null> {
  const file = await open(path);
  try {
    return await readCodedStart(file);
  } finally {
    await file.close();
  }
}

/**
 * The code of the picture that is shown, decoded from nothing but what a start holds: a bare stream (H.264, Annex B). Null
 * where no decoder makes it of that.
 */
async function codeOf(start: CodedStart): Promise<number | null> {
  const path = join(folder, 'bare.h264');
  await writeFile(path, Buffer.concat([...parameterSets(start.description), ...units(start)]));
  const inOrder = start.pictures.map(({ time }) => time).sort((a, b) => a - b);
  try {
    return decodedCodes(ffmpeg, path)[inOrder.indexOf(start.shown)] ?? null;
  } catch {
    return null;
  }
}

const MARK = Buffer.from([0, 0, 0, 1]);

/** ISO/IEC 14496-15, 5.3.3.1: counted sequence parameter sets from byte 5, counted picture parameter sets after them. */
function parameterSets(avcC: Uint8Array): Buffer[] {
  const bytes = Buffer.from(avcC);
  const sets: Buffer[] = [];
  let at = 5;
  for (const mask of [0x1f, 0xff]) {
    const count = bytes.readUInt8(at) & mask;
    at += 1;
    for (let set = 0; set < count; set += 1) {
      const length = bytes.readUInt16BE(at);
      sets.push(MARK, bytes.subarray(at + 2, at + 2 + length));
      at += 2 + length;
    }
  }
  return sets;
}

/** Units of the coded pictures, each after its length in four bytes, as x264 is written. */
function units({ data }: Pick<CodedStart, 'data'>): Buffer[] {
  const bytes = Buffer.from(data);
  const found: Buffer[] = [];
  for (let at = 0; at < bytes.length; at += 4 + bytes.readUInt32BE(at))
    found.push(MARK, bytes.subarray(at + 4, at + 4 + bytes.readUInt32BE(at)));
  return found;
}

/** Seconds of the track that its only edit leaves out, as a writer does where pictures are shown later than they are decoded. */
function delayOf(file: Buffer): number {
  return file.readInt32BE(file.indexOf('elst') + 16) / file.readUInt32BE(file.indexOf('mdhd') + 16);
}

const H264 = [
  '-c:v',
  'libx264',
  '-preset',
  'fast',
  '-pix_fmt',
  'yuv420p',
  '-bf',
  '3',
  '-g',
  '24',
  '-movflags',
  'faststart',
];
const MOOV_LAST = H264.slice(0, -2);

describe('what makes the first picture of a clip', () => {
  test('leads to the picture that a plain decode shows first, for every ill clip that is plain enough', async () => {
    let read = 0;
    const clips = ILL_CLIPS.filter(({ file }) => /\.(mp4|mov)$/.test(file));
    for (const clip of clips.filter((_, place) => place % sized(3, 1) === 0)) {
      const path = join(folder, clip.file);
      clip.make(ffmpeg, path, join(folder, `scratch-${clip.file}`));
      const start = await startOf(path);
      const code = start === null ? null : await codeOf(start);
      if (code === null) continue;
      read += 1;
      expect(code, clip.name).toBe(decodedCodes(ffmpeg, path)[0]);
    }
    expect(read).toBeGreaterThanOrEqual(sized(6, 15));
  });

  test('enters at the key picture before an edit, and leaves out what no other picture needs', async () => {
    const whole = join(folder, 'whole.mp4');
    const cut = join(folder, 'cut.mp4');
    makeCodedClip(ffmpeg, 72, '30', [...MOOV_LAST, whole]);
    for (const shown of [1, 7, 23, 24, 30, 50]) {
      await writeFile(
        cut,
        withEdits(await readFile(whole), { pictures: [{ seconds: 0.5, media: shown / 30 + 2 / 30 }] }),
      );
      const truth = decodedCodes(ffmpeg, cut)[0];
      const start = await startOf(cut);
      if (start === null) throw new Error('no start');
      expect(truth).toBe(shown);
      expect(await codeOf(start)).toBe(shown);
      expect(start.pictures[0]?.key).toBe(true);
      expect(start.pictures.length).toBeLessThan(24);
    }
    // The last of a group of 24: of its 23 others, those that nobody refers to are left out.
    await writeFile(cut, withEdits(await readFile(whole), { pictures: [{ seconds: 0.5, media: 25 / 30 }] }));
    expect((await startOf(cut))?.pictures.length).toBeLessThan(18);
  });

  test('enters a group before, where what is shown first leans on it', async () => {
    const whole = join(folder, 'open-groups.mp4');
    const cut = join(folder, 'open-cut.mp4');
    const open = ['-x264-params', 'keyint=15:min-keyint=15:scenecut=0:bframes=3:b-adapt=0:b-pyramid=none:open-gop=1'];
    makeCodedClip(ffmpeg, 60, '30', ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', ...open, whole]);
    const first = delayOf(await readFile(whole));
    // Shown before the key picture that stands before them in the file; and from groups that lean on one before.
    for (const [shown, isRead] of [
      [12, true],
      [13, true],
      [14, true],
      [15, false],
      [28, false],
      [31, false],
    ] as const) {
      const edit = { seconds: 0.5, media: first + shown / 30 };
      await writeFile(cut, withEdits(await readFile(whole), { pictures: [edit] }));
      expect(decodedCodes(ffmpeg, cut)[0]).toBe(shown);
      const start = await startOf(cut);
      expect(start !== null, `picture ${String(shown)}`).toBe(isRead);
      if (start !== null) expect(await codeOf(start)).toBe(shown);
    }
  });

  test('is not read where several edits follow each other, and not from another container or codec', async () => {
    const whole = join(folder, 'edited.mp4');
    makeCodedClip(ffmpeg, 48, '30', [...MOOV_LAST, whole]);
    const edits = [1, 0.5].map((media) => ({ seconds: 0.3, media }));
    await writeFile(whole, withEdits(await readFile(whole), { pictures: edits }));
    expect(await startOf(whole)).toBeNull();
    for (const [name, codec] of [
      ['other.mkv', 'libx264'],
      ['other.mp4', 'mpeg4'],
    ] as const) {
      makeCodedClip(ffmpeg, 4, '30', ['-c:v', codec, '-pix_fmt', 'yuv420p', join(folder, name)]);
      expect(await askCodedStart(join(folder, name)), name).toBeNull();
    }
  });
});

const TURNED = ['hflip', 'vflip', 'rotate-90', 'rotate-180', 'rotate-270'].map(
  (name) => `turned/four-colors-h264-bt601-${name}.mp4`,
);
itOn(...TURNED)('is turned and mirrored as the names of published clips say', async () => {
  for (const file of TURNED) {
    const start = await startOf(outsideMedia(file));
    const { turn, mirrored } = await readClipSource(outsideMedia(file), { ffmpeg });
    expect(start, file).toMatchObject({ turn, mirrored });
  }
});

describe('the process that reads containers', () => {
  test('answers as the reading itself', async () => {
    const path = join(folder, 'asked.mp4');
    makeCodedClip(ffmpeg, 10, '30', [...H264, path]);
    expect(await askCodedStart(path)).toEqual(await startOf(path));
  });

  test('gives up on what is broken, and reads the next file', async () => {
    const path = join(folder, 'good.mp4');
    makeCodedClip(ffmpeg, 10, '30', [...MOOV_LAST, path]);
    const good = await readFile(path);
    const bad = join(folder, 'bad.mp4');
    let survived = 0;
    for (let cut = 100; cut < good.length; cut += Math.ceil(good.length / 25)) {
      await writeFile(bad, good.subarray(0, cut));
      await askCodedStart(bad);
      const upset = Buffer.from(good);
      upset.fill(0xff, good.indexOf('moov') + (cut % 600), good.indexOf('moov') + (cut % 600) + 8);
      await writeFile(bad, upset);
      await askCodedStart(bad);
      survived += 2;
    }
    expect(survived).toBeGreaterThanOrEqual(48);
    expect((await askCodedStart(path))?.pictures.length).toBe(1);
  });

  test('refuses what is no file of a clip with the sentence that it gets everywhere', async () => {
    const failure = await askCodedStart(join(folder, 'not there.mp4')).catch((error: unknown) => error);
    expectThrown(() => {
      throw failure;
    }, 'file-not-found');
  });
});
