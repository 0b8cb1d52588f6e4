import { reportedWritingTrouble } from '../../files/file-trouble.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { endedWell, processError, startFfmpeg } from '../process/run-ffmpeg.ts';

export interface PicturesToEncode {
  readonly ffmpeg: Ffmpeg;
  /** Pixels, even. */
  readonly width: number;
  readonly height: number;
  /** Pictures a second, whole. */
  readonly rate: number;
  /** RGBA pictures in order, each with how often it is shown, >= 1. */
  readonly pictures: AsyncIterable<{ readonly rgba: Uint8Array; readonly times: number }>;
  /** The MP4 file to make; overwritten. */
  readonly out: string;
  readonly signal?: AbortSignal | undefined;
  /** Called with the number of pictures handed over so far, those shown again counted again. */
  readonly onProgress?: (pictures: number) => void;
}

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
  run.output.resume();
  const end = await run.end;
  if (end.inputError !== null) throw end.inputError;
  if (endedWell(end)) return;
  throw (
    (end.cancelled ? null : reportedWritingTrouble(end.stderrTail, order.out)) ??
    processError(end, 'The video could not be made. Try again; if it stays so, restart Baybook.')
  );
}

function encodeArguments({ width, height, rate, out }: PicturesToEncode): string[] {
  const args = ['-v', 'error', '-y', '-protocol_whitelist', 'file,pipe'];
  args.push(
    '-f',
    'rawvideo',
    '-pix_fmt',
    'rgba',
    '-s',
    `${width}x${height}`,
    '-framerate',
    String(rate),
    '-i',
    'pipe:0',
  );
  // The picture is converted by the same matrix that the tags name; ffmpeg's own default is BT.601.
  args.push('-vf', 'scale=out_color_matrix=bt709:out_range=tv,format=yuv420p');
  args.push('-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-profile:v', 'high', '-g', String(2 * rate));
  args.push('-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-color_range', 'tv');
  return [...args, '-f', 'mp4', `file:${out}`];
}

async function* repeated({ width, height, pictures, onProgress }: PicturesToEncode): AsyncGenerator<Uint8Array> {
  let done = 0;
  for await (const { rgba, times } of pictures) {
    if (rgba.length !== width * height * 4)
      throw new Error(`a picture must have ${width * height * 4} bytes, not ${rgba.length}`);
    for (let time = 0; time < times; time++) {
      yield rgba;
      onProgress?.((done += 1));
    }
  }
}
