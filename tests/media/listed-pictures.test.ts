import { readdirSync } from 'node:fs';
import { open, readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import { readPackets } from '../../core/video/index/clip-source.ts';
import { packetsOf, readListedPictures } from '../../core/video/index/listed-pictures.ts';
import type { ListedPictures } from '../../core/video/index/listed-pictures.ts';
import { readClipIndexReport } from '../../core/video/index/read-clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { withEdits } from '../support/edit-lists.ts';
import type { Edit } from '../support/edit-lists.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
/** B-frames, so that pictures are not shown in the order of the file. The moov box comes last. */
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];

async function listedOf(path: string): Promise<ListedPictures | null> {
  const file = await open(path);
  try {
    return await readListedPictures(file);
  } finally {
    await file.close();
  }
}

/** Whether the tables are plain; if they are, that they list what ffmpeg lists, in its order, to the last flag. */
async function isListedAsByFfmpeg(path: string): Promise<boolean> {
  const listed = await listedOf(path);
  if (listed === null) return false;
  const { source, packets } = await readPackets(path, { ffmpeg });
  expect(packetsOf(listed), path).toEqual(packets.map((packet) => ({ ...packet, secondField: false })));
  expect([listed.trackId, 1, listed.timescale], path).toEqual([
    source.trackId,
    source.timebase.num,
    source.timebase.den,
  ]);
  return true;
}

describe('what the tables of a file list', () => {
  it('is what ffmpeg lists, for every ill clip that is plain enough', async () => {
    const folder = temporaryFolder();
    let plain = 0;
    const clips = ILL_CLIPS.filter(({ file }) => /\.(mp4|mov)$/.test(file));
    for (const clip of clips.filter((_, place) => place % sized(3, 1) === 0)) {
      const path = join(folder, clip.file);
      clip.make(ffmpeg, path, join(folder, `scratch-${clip.file}`));
      if (await isListedAsByFfmpeg(path)) plain += 1;
    }
    expect(plain).toBeGreaterThanOrEqual(sized(5, 17));
  });

  itOn('timing/bipbop.mp4')('is what ffmpeg lists, for every clip from outside that is plain enough', async () => {
    const media = dirname(dirname(outsideMedia('timing/bipbop.mp4')));
    const files = readdirSync(media, { recursive: true, encoding: 'utf8' }).filter((name) => /\.(mp4|mov)$/.test(name));
    let plain = 0;
    for (const file of files) if (await isListedAsByFfmpeg(join(media, file))) plain += 1;
    expect(plain).toBeGreaterThanOrEqual(8);
  });

  it('makes the same table of frames as ffmpeg’s list, by the way that the window takes', async () => {
    const path = join(temporaryFolder(), 'clip.mp4');
    makeCodedClip(ffmpeg, 48, '30', [...H264, path]);
    const [tables, ours] = await Promise.all([
      readClipIndexReport(path, { ffmpeg, byTables: true }),
      readClipIndexReport(path, { ffmpeg }),
    ]);
    expect(tables).toEqual(ours);
    expect(tables.index.frames).toHaveLength(48);
  });
});

it('a file that is no clip, or is cut off, is refused as by ffmpeg', async () => {
  const path = join(temporaryFolder(), 'clip.mp4');
  makeCodedClip(ffmpeg, 48, '30', [...H264, path]);
  const bytes = await readFile(path);
  for (const content of ['Dear coach, here is my swing.', '', bytes.subarray(0, bytes.length / 2)]) {
    await writeFile(path, content);
    const refusal = async (byTables: boolean): Promise<unknown> =>
      readClipIndexReport(path, { ffmpeg, byTables }).then(
        () => 'taken',
        (error: unknown) => (error instanceof AppError ? [error.code, error.message] : error),
      );
    expect(await refusal(true)).toEqual(await refusal(false));
    expect(await refusal(true)).toContainEqual(expect.stringMatching(/^(not-a-clip|file-empty|clip-damaged)$/));
  }
});

describe('a file whose tables are not plain is left to ffmpeg', () => {
  const whole = async (): Promise<{ readonly path: string; readonly bytes: Buffer }> => {
    const path = join(temporaryFolder(), 'clip.mp4');
    makeCodedClip(ffmpeg, 48, '30', [...H264, path]);
    return { path, bytes: await readFile(path) };
  };

  it('where an edit hides the first or the last pictures, shows them twice or at another pace', async () => {
    const { path, bytes } = await whole();
    // B-frames are shown two frames later than they are decoded.
    const late = 2 / 30;
    const edits: readonly (readonly [hidden: boolean, pictures: readonly Edit[] | null])[] = [
      [false, [{ seconds: 48 / 30, media: late }]],
      [false, [{ seconds: 1, media: null }, { seconds: 48 / 30, media: late }]], // oxfmt-ignore
      [false, null],
      [true, [{ seconds: 40 / 30, media: 10 / 30 }]],
      [true, [{ seconds: 1, media: late }]],
      [true, [0, 1].map((at) => ({ seconds: 24 / 30, media: late + at * (24 / 30) }))],
      [true, [{ seconds: 48 / 30, media: late, rate: 0 }]],
      // ffmpeg makes a frame of its own of what shows nothing behind it.
      [
        true,
        [
          { seconds: 48 / 30, media: late },
          { seconds: 1, media: null },
        ],
      ],
    ];
    for (const [place, [hidden, pictures]] of edits.entries()) {
      await writeFile(path, withEdits(bytes, { pictures }));
      expect(await isListedAsByFfmpeg(path), `edit ${String(place)}`).toBe(!hidden);
    }
  });

  it('where a picture or a table is not all there, or a table says what no writer means', async () => {
    const { path, bytes } = await whole();
    const at = (box: string): number => bytes.indexOf(box) + 4;
    const wrong: readonly (readonly [what: string, change: (file: Buffer) => Buffer | number])[] = [
      ['a picture beyond the end', (file) => file.writeUInt32BE(file.length, at('stco') + 8)],
      ['more pictures than sizes', (file) => file.writeUInt32BE(49, at('stsz') + 8)],
      ['a size of 0', (file) => file.writeUInt32BE(0, at('stsz') + 12)],
      ['no list of sizes', (file) => file.write('free', at('stsz') - 4)],
      ['a key picture that is none', (file) => file.writeUInt32BE(49, at('stss') + 8)],
      ['times that end early', (file) => file.writeUInt32BE(40, at('stts') + 8)],
      ['a picture that takes no time', (file) => file.writeUInt32BE(0, at('stts') + 12)],
      ['a picture shown hours later', (file) => file.writeInt32BE(2 ** 28, at('ctts') + 12)],
      ['two kinds of pictures', (file) => file.writeUInt32BE(2, at('stsd') + 4)],
      ['pictures of another file', (file) => file.writeUInt32BE(0, at('dref') + 16)],
      ['no pictures', (file) => file.write('soun', at('hdlr') + 8)],
      ['a table that breaks off', (file) => file.subarray(0, at('stsz') + 40)],
      ['no list of key pictures', (file) => file.write('free', at('stss') - 4)],
      ['a first picture that is no key picture', (file) => file.writeUInt32BE(2, at('stss') + 8)],
      ['a table twice', (file) => file.write('stts', at('ctts') - 4)],
      ['a movie in fragments', (file) => file.write('mvex', at('udta') - 4)],
    ];
    expect(await listedOf(path)).not.toBeNull();
    for (const [what, change] of wrong) {
      const file = Buffer.from(bytes);
      const changed = change(file);
      await writeFile(path, typeof changed === 'number' ? file : changed);
      expect(await listedOf(path), what).toBeNull();
    }
  });
});
