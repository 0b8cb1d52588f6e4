import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { frameWithPts } from '../../time/frame-table.ts';
import { readIndexedSource, type ReadOptions } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import { requireSuccess, startFfmpeg } from '../process/run-ffmpeg.ts';
import { framePipeArguments, readFramePipe } from './frame-pipe.ts';
import { shownPictures } from './shown-pictures.ts';

const LIMIT_MS = 30 * 60_000;

/** A picture's brightness, 0 to 255, row by row, under the number of its frame. Its own memory. */
export interface LumaFrame {
  readonly frame: number;
  readonly samples: Uint8Array;
}

export interface LumaOrder extends ReadOptions {
  /** Frames, both included. */
  readonly span: FrameSpan;
  /** Lines that a picture has at most, > 0; one that is lower is not made larger. */
  readonly lines: number;
  /** Of the pictures shown the first and every so many are given, a whole number >= 1; left out: all. */
  readonly every?: number;
}

/** The size of the pictures that `readLuma` gives, pixels: as the clip is shown, no higher than `lines`. */
export function lumaSize(
  { width, height }: Pick<ClipIndex, 'width' | 'height'>,
  lines: number,
): { readonly width: number; readonly height: number } {
  const high = Math.min(lines, height);
  return { width: Math.max(1, Math.round((width * high) / height)), height: high };
}

/**
 * The brightness of a span's pictures in order, small: for looking for what moves. A frame that cannot be decoded is left
 * out.
 * @throws AppError as `readIndexedSource`, and `cancelled`, `timed-out`, `ffmpeg-failed`.
 */
export async function* readLuma(path: string, index: ClipIndex, order: LumaOrder): AsyncGenerator<LumaFrame> {
  const { ffmpeg, signal, span, lines, every = 1 } = order;
  const source = await readIndexedSource(path, index, order);
  const size = lumaSize(index, lines);
  const [first, last] = [index.frames[span.from]?.pts ?? 0, index.frames[span.to]?.pts ?? 0];
  const enterAt = span.from === 0 ? null : entrySeconds(index, source.format, span.from);
  const some = every === 1 ? '' : `select=not(mod(n\\,${every})),`;
  const then = `${some}scale=${size.width}:${size.height}:flags=area,format=gray`;
  const shown = shownPictures(source, index, ffmpeg, { kind: 'proxy', first, last, enterAt, then });
  const count = Math.ceil((span.to - span.from + 1) / every);
  const args = ['-v', 'error', ...shown.args, '-frames:v', String(count), '-c:v', 'rawvideo'];
  args.push(...framePipeArguments('rawvideo'));
  const run = startFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS, folder: shown.folder, lowPriority: true });
  let isDone = false;
  try {
    for await (const { pts, data } of readFramePipe(run.output)) {
      const frame = frameWithPts(index, pts);
      if (frame === null || data.length !== size.width * size.height) continue;
      yield { frame, samples: data };
      if (frame >= span.to) break;
    }
    isDone = true;
  } finally {
    if (!isDone) run.stop();
  }
  requireSuccess(await run.end);
}
