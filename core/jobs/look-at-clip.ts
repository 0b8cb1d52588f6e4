import type { ClipIndex } from '../time/clip-index.ts';
import type { ClipLook } from '../time/clip-look.ts';
import { lookOf } from '../time/clip-look.ts';
import { readClipFile } from '../video/clip-format.ts';
import type { Ffmpeg } from '../video/find-ffmpeg.ts';
import { readClipIndex } from '../video/read-clip-index.ts';

/**
 * What a clip holds, from the list of its coded pictures; none is decoded but where the file gives them no times.
 *
 * @throws AppError as reading a clip may throw.
 */
export async function lookAtClip(
  path: string,
  ffmpeg: Ffmpeg,
  signal?: AbortSignal,
): Promise<{ readonly look: ClipLook; readonly index: ClipIndex }> {
  const { bytes } = await readClipFile(path);
  const index = await readClipIndex(path, { ffmpeg, signal });
  return { look: lookOf(index, bytes), index };
}
