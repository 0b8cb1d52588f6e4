import type { ClipIndex } from '../time/clip-index.ts';
import type { ClipSummary } from '../time/clip-summary.ts';
import { summariseClip } from '../time/clip-summary.ts';
import { readClipFile } from '../video/index/clip-format.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { readRecentIndex } from '../video/index/recent-index.ts';

/**
 * What a clip holds, from the list of its coded pictures; none is decoded but where the file gives them no times.
 *
 * @throws AppError as reading a clip may throw.
 */
export async function inspectClip(
  path: string,
  ffmpeg: Ffmpeg,
  signal?: AbortSignal,
): Promise<{ readonly look: ClipSummary; readonly index: ClipIndex }> {
  const { bytes } = await readClipFile(path);
  const index = await readRecentIndex(path, { ffmpeg, signal });
  return { look: summariseClip(index, bytes), index };
}
