import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { inputArguments, keepTimesArguments } from '../process/ffmpeg-arguments.ts';
import type { ClipSource, ReadOptions } from '../index/clip-source.ts';
import { selectFilter } from '../decode/picture-filter.ts';
import { requireSuccess, startFfmpeg } from '../process/run-ffmpeg.ts';

export interface SumOptions extends Pick<ReadOptions, 'ffmpeg' | 'signal'> {
  /** How many have come; it never falls. */
  readonly onPictures?: ((count: number) => void) | undefined;
}

/**
 * Decodes a range of frames and returns a sum of each one's samples as decoded, in order of time; fewer where the decoder
 * delivers fewer. Two pictures with one sum are bit-identical. `enterAt` as in `inputArguments`.
 *
 * Throws AppError `cancelled`, `timed-out`, `ffmpeg-missing`.
 */
export async function pictureSums(
  source: ClipSource,
  index: Pick<ClipIndex, 'frames'>,
  range: FrameSpan,
  enterAt: number | null,
  { ffmpeg, signal, onPictures }: SumOptions,
): Promise<readonly string[]> {
  const [first, last] = [index.frames[range.from], index.frames[range.to]];
  if (first === undefined || last === undefined) throw new Error('a range must lie within its clip');
  const args = ['-v', 'error', ...inputArguments(source.path, source.format, enterAt), '-map', `0:${source.stream}`];
  args.push('-vf', selectFilter(first.pts, last.pts), ...keepTimesArguments(ffmpeg, source.timebase));
  args.push('-frames:v', String(range.to - range.from + 1), '-c:v', 'rawvideo');
  // 128 bits, and quicker than reading the samples from memory.
  args.push('-f', 'framehash', '-hash', 'murmur3', '-flush_packets', '1', '-');
  // The coach is at work on the pictures meanwhile.
  const run = startFfmpeg(ffmpeg, args, { signal, lowPriority: true });
  let text = '';
  for await (const chunk of run.output) {
    text += Buffer.from(chunk).toString('latin1');
    onPictures?.(parsePictureSums(text).length);
  }
  requireSuccess(await run.end);
  return parsePictureSums(text);
}

/** The sums in ffmpeg's framehash output for one stream: the sixth field of each line that is no comment. */
export function parsePictureSums(text: string): readonly string[] {
  return text.split('\n').flatMap((line) => {
    const sum = /^\d+(?:,[^,]+){4},\s*([0-9a-f]+)\s*$/.exec(line)?.[1];
    return sum === undefined ? [] : [sum];
  });
}
