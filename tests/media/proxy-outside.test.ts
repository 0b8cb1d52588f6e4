import { join } from 'node:path';
import { expect } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { drawn } from '../support/drawn.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { buildCopy, buildUntil, timesOf } from '../support/proxy-builds.ts';
import { standsAlone } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();

/** Of cameras, phones and other programs: edit lists, turned, high dynamic range, uneven times, wide pixels. */
const CLIPS = [
  ['golf/down-the-line-slow.mp4', 492],
  ['timing/sample_edit_list.mp4', 1280],
  ['timing/bipbop.mp4', 400],
  ['timing/cursed-vfr.mp4', 1280],
  ['timing/hdr10-video-with-sdr-container.mp4', 1280],
  ['timing/nasa_13013.mp4', 480],
  ['timing/counting.mp4', 352],
  ['aspect/sar_2x1.mp4', 1280],
  ['turned/four-colors-h264-bt601-rotate-90.mp4', 320],
] as const;

for (const [file, side] of drawn(CLIPS, 0, 4))
  itOn(file)(`the proxy of ${file} has all its frames, also when it was made in two goes`, async () => {
    const path = outsideMedia(file);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    const [times, folder] = [timesOf(index), temporaryFolder()];
    const whole = await buildCopy(join(folder, 'whole'), { path, ffmpeg }, index);
    expect(whole.result).toEqual({ delivered: times, errors: false });
    expect(Math.max(whole.copy.width, whole.copy.height)).toBe(side);
    await whole.copy.release();

    const pieces = join(folder, 'pieces');
    await buildUntil(pieces, { path, ffmpeg }, index, Math.ceil(times.length * 0.7));
    const { copy, result } = await buildCopy(pieces, { path, ffmpeg }, index);
    expect(result).toEqual(whole.result);
    for (const pts of times) expect(standsAlone((await copy.read(pts)) ?? new Uint8Array())).toBe(true);
    await copy.release();
  });
