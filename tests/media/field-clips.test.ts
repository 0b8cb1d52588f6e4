import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { readPackets } from '../../core/video/index/clip-source.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import { readClipIndex, readClipIndexReport } from '../../core/video/index/read-clip-index.ts';
import { ffmpegNow } from '../support/coded-clip.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { checksumsOfRaw, publishedChecksums } from '../support/published-checksums.ts';
import { buildCopy } from '../support/proxy-builds.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();

/** H.264.1 streams of field pictures, with the checksums that FFmpeg's own test suite publishes. */
const CLIPS = [
  ['fields/paff_fields.ts', 'h264-conformance-frext-hcaff1_hhi_b', 10],
  ['fields/FRExt2_Panasonic.ts', 'h264-conformance-frext-frext2_panasonic_b', 15],
] as const;

/** The clip, in Transport Stream or copied into MP4. */
function clipIn(container: 'ts' | 'mp4', file: string): string {
  const path = outsideMedia(file);
  if (container === 'ts') return path;
  const copied = join(temporaryFolder(), 'fields.mp4');
  ffmpegNow(ffmpeg, ['-fflags', '+genpts', '-i', path, '-c', 'copy', copied]);
  return copied;
}

describe.each(CLIPS)('%s', (file, list, count) => {
  itOn(file).each(['ts', 'mp4'] as const)(
    'has as many frames as pictures, bit for bit, at once and settled (%s)',
    async (container) => {
      const path = clipIn(container, file);
      const published = publishedChecksums(list).slice(0, count);
      expect(published).toHaveLength(count);
      const { index, report } = await readClipIndexReport(path, { ffmpeg, verify: true });
      expect(index.frames).toHaveLength(count);
      expect(index.damage).toEqual([]);
      expect(report).toMatchObject({ decoded: count, tableDiffered: false, timeless: 0, doubled: 0 });
      expect(report.packets).toBeGreaterThan(count);
      expect(await readClipIndex(path, { ffmpeg })).toEqual(index);

      const window = openFrameWindow(path, index, { ffmpeg, kind: 'sharp' });
      const pictures = [];
      for (const frame of index.frames.keys()) pictures.push(await window.frame(frame));
      await window.close();
      expect(checksumsOfRaw(ffmpeg, pictures)).toEqual(published);
      const { copy, result } = await buildCopy(join(temporaryFolder(), 'copies'), { path, ffmpeg }, index);
      await copy.release();
      expect(result).toEqual({ delivered: index.frames.map(({ pts }) => pts), errors: false });
    },
  );
});

itOn('fields/paff_fields.ts')(
  'real damage in a second field is damage of its picture, and no field becomes a frame by it',
  async () => {
    const path = outsideMedia('fields/paff_fields.ts');
    const sound = await readClipIndex(path, { ffmpeg });
    const { packets } = await readPackets(path, { ffmpeg });
    const second = packets.findIndex(({ secondField }) => secondField);
    expect(second).toBe(1);
    // Bytes within the second packet, whose TS packets begin with one that says so.
    const bytes = Buffer.from(readFileSync(path));
    const starts = [...Array(bytes.length / 188).keys()].filter((at) => bytes.readUInt16BE(at * 188 + 1) === 0x4100);
    const begin = ((starts[1] ?? 0) + 1) * 188;
    for (let at = begin; at < begin + 4 * 188; at += 1) if (at % 188 > 20) bytes[at] = (at * at * 31 + 7) & 0xff;
    const ill = join(temporaryFolder(), 'ill.ts');
    writeFileSync(ill, bytes);
    const index = await readClipIndex(ill, { ffmpeg, verify: true });
    expect(index.frames.map(({ pts }) => pts)).toEqual(sound.frames.map(({ pts }) => pts));
    expect(index.damage).toEqual([{ from: 0, to: 9 }]);
  },
);

itOn('fields/paff_fields.ts')('is not shortened, in a sentence', async () => {
  const path = outsideMedia('fields/paff_fields.ts');
  const index = await readClipIndex(path, { ffmpeg });
  const out = join(temporaryFolder(), 'part.ts');
  await expectRefused(keepSpan({ ffmpeg, path, index, from: 2, to: 6, out }), 'format-refused', /Add the whole clip/);
});
