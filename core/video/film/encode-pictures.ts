import { say } from '../../model/say.ts';
import { reportedWritingTrouble } from '../../files/file-trouble.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { planarBytes, toPlanar } from './planar-picture.ts';
import { endedWell, processError, startFfmpeg } from '../process/run-ffmpeg.ts';

export interface PicturesToEncode {
  readonly ffmpeg: Ffmpeg;
  /** Pixels, even. */
  readonly width: number;
  readonly height: number;
  /** Pictures a second, whole. */
  readonly rate: number;
  /** RGBA pictures in order, each with how often it is shown, >= 1. Its bytes are used until the next one is asked for. */
  readonly pictures: AsyncIterable<{ readonly rgba: Uint8Array; readonly times: number }>;
  /** The MP4 file to make; overwritten. */
  readonly out: string;
  readonly signal?: AbortSignal | undefined;
  /** Called with the number of pictures handed over so far, those shown again counted again. */
  readonly onProgress?: (pictures: number) => void;
}

/** More are no quicker where others paint and decode meanwhile, and each holds pictures of its own. */
const THREADS = 2;
/** Pictures that the encoder looks ahead. With ten, as is usual, the file is as large and 60 MB more are held at 1080p. */
const LOOKAHEAD = 5;
/** A talk-through of some hours. */
const LIMIT_MS = 12 * 60 * 60_000;

/**
 * Encodes pictures to H.264 without sound: 4:2:0, BT.709, a constant rate, a key picture at least every two seconds so that
 * a player jumps soon.
 * @throws AppError `cancelled`, `disk-full`, `not-writable`, `ffmpeg-missing`, `ffmpeg-failed`, or what `pictures` threw.
 */
export async function encodePictures(order: PicturesToEncode): Promise<void> {
  const run = startFfmpeg(order.ffmpeg, encodeArguments(order), {
    input: repeated(order),
    signal: order.signal,
    timeLimitMs: LIMIT_MS,
  });
  run.output.drain();
  const end = await run.end;
  if (end.inputError !== null) throw end.inputError;
  if (endedWell(end)) return;
  throw (
    (end.cancelled ? null : reportedWritingTrouble(end.stderrTail, order.out)) ??
    processError(end, say`The video could not be made. Try again; if it stays so, restart Baybook.`)
  );
}

function encodeArguments({ width, height, rate, out }: PicturesToEncode): string[] {
  const args = ['-v', 'error', '-y', '-protocol_whitelist', 'file,pipe'];
  const size = `${String(width)}x${String(height)}`;
  args.push(...['-f', 'rawvideo', '-pix_fmt', 'yuv420p', '-s', size, '-framerate', String(rate)]);
  // What waits inside ffmpeg is whole pictures: few of them, and few threads that each hold some.
  args.push(...['-thread_queue_size', '2', '-i', 'pipe:0']);
  args.push('-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-profile:v', 'high', '-g', String(2 * rate));
  args.push('-threads', String(THREADS), '-x264-params', `rc-lookahead=${String(LOOKAHEAD)}:sync-lookahead=0`);
  args.push('-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-color_range', 'tv');
  return [...args, '-f', 'mp4', `file:${out}`];
}

async function* repeated({ width, height, pictures, onProgress }: PicturesToEncode): AsyncGenerator<Uint8Array> {
  // Used in turn: while one is written, one waits, and one is filled, none is changed that was handed over.
  const planar = Array.from({ length: 4 }, () => new Uint8Array(planarBytes(width, height)));
  let done = 0;
  for await (const { rgba, times } of pictures) {
    if (rgba.length !== width * height * 4)
      throw new Error(`a picture must have ${width * height * 4} bytes, not ${rgba.length}`);
    const picture = planar.shift() ?? new Uint8Array(planarBytes(width, height));
    planar.push(picture);
    toPlanar(rgba, width, height, picture);
    for (let time = 0; time < times; time++) {
      yield picture;
      onProgress?.((done += 1));
    }
  }
}
