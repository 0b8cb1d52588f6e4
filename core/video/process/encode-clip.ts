import { randomUUID } from 'node:crypto';
import { rename, rm, writeFile } from 'node:fs/promises';
import { say } from '../../model/say.ts';
import { reportedWritingTrouble, writingTrouble } from '../../files/file-trouble.ts';
import { refuseExisting } from '../../files/refuse-existing.ts';
import type { Ratio } from '../../model/frame.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';
import { endedWell, processError, requireSuccess, startFfmpeg } from './run-ffmpeg.ts';

export interface ClipToEncode {
  readonly ffmpeg: Ffmpeg;
  /** Pixels, even, >= 2. */
  readonly width: number;
  readonly height: number;
  /** Frames a second. */
  readonly rate: Ratio;
  /**
   * Pictures in order, each width x height x 4 bytes: R, G, B, A from the top left, row by row; A is ignored. An array
   * must not be changed after it was handed over.
   */
  readonly frames: AsyncIterable<Uint8Array>;
  /** One channel, samples within -1..1, beginning with the first frame. */
  readonly sound: { readonly sampleRate: number; readonly samples: Float32Array } | null;
  /** The MP4 file to make; must not exist yet. */
  readonly out: string;
  /** `quick` takes about half the time for a somewhat larger file of the same quality; `careful` when left out. */
  readonly effort?: 'quick' | 'careful';
  /** Frames a second that the file shall say the camera took, as phones write it (com.android.capture.fps). */
  readonly captureRateTag?: number;
  readonly signal?: AbortSignal;
  /** Called with the number of pictures handed over so far. */
  readonly onProgress?: (frames: number) => void;
}

/**
 * Encodes pictures to an H.264 MP4 like a camera's: 4:2:0, BT.709 limited range and tagged so, B-frames, a key picture
 * at least every 250, AAC sound. Written under a temporary name beside `out` and renamed when it is whole.
 *
 * Throws AppError `file-exists`, `cancelled`, `timed-out`, `disk-full`, `ffmpeg-missing` or `ffmpeg-failed`, or what
 * `frames` threw.
 */
export async function encodeClip(clip: ClipToEncode): Promise<void> {
  if (clip.width % 2 !== 0 || clip.height % 2 !== 0 || clip.width < 2 || clip.height < 2)
    throw new Error(`width and height must be even and at least 2, not ${clip.width} x ${clip.height}`);
  await refuseExisting(clip.out);

  const temporary = `${clip.out}.${randomUUID()}.part`;
  const soundFile = clip.sound === null ? null : `${temporary}.sound`;
  try {
    if (clip.sound !== null && soundFile !== null) {
      const { buffer, byteOffset, byteLength } = clip.sound.samples;
      await writeFile(soundFile, new Uint8Array(buffer, byteOffset, byteLength));
    }
    const run = startFfmpeg(clip.ffmpeg, encodeArguments(clip, soundFile, temporary), {
      input: counted(clip),
      signal: clip.signal,
    });
    run.output.drain();
    const end = await run.end;
    if (end.inputError !== null) throw end.inputError;
    if (!endedWell(end)) {
      requireSuccess(end);
      throw (
        reportedWritingTrouble(end.stderrTail, clip.out) ??
        processError(end, say`The clip ${clip.out} could not be written; check that its folder can be written to.`)
      );
    }
    await refuseExisting(clip.out);
    await rename(temporary, clip.out);
  } catch (error) {
    throw writingTrouble(error, clip.out);
  } finally {
    await rm(temporary, { force: true });
    if (soundFile !== null) await rm(soundFile, { force: true });
  }
}

/** The argument list; raw pictures come in on standard input. */
export function encodeArguments(
  clip: Pick<ClipToEncode, 'width' | 'height' | 'rate' | 'sound' | 'captureRateTag' | 'effort'>,
  soundFile: string | null,
  out: string,
): string[] {
  const args = ['-v', 'error', '-protocol_whitelist', 'file,pipe'];
  args.push('-f', 'rawvideo', '-pix_fmt', 'rgba', '-s', `${clip.width}x${clip.height}`);
  args.push('-framerate', `${clip.rate.num}/${clip.rate.den}`, '-i', 'pipe:0');
  if (clip.sound !== null && soundFile !== null)
    args.push('-f', 'f32le', '-ar', String(clip.sound.sampleRate), '-ac', '1', '-i', `file:${soundFile}`);
  args.push('-map', '0:v:0');
  // The picture is converted by the same matrix that the tags name; ffmpeg's own default is BT.601.
  args.push('-vf', 'scale=out_color_matrix=bt709:out_range=tv:flags=accurate_rnd+full_chroma_int,format=yuv420p');
  args.push(
    '-c:v',
    'libx264',
    '-preset',
    clip.effort === 'quick' ? 'veryfast' : 'medium',
    '-crf',
    '18',
    '-bf',
    '2',
    '-g',
    '250',
  );
  args.push('-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-color_range', 'tv');
  if (soundFile !== null) args.push('-map', '1:a:0', '-c:a', 'aac', '-b:a', '128k');
  if (clip.captureRateTag !== undefined)
    args.push(
      '-metadata',
      `com.android.capture.fps=${clip.captureRateTag}`,
      '-movflags',
      '+faststart+use_metadata_tags',
    );
  else args.push('-movflags', '+faststart');
  args.push('-f', 'mp4', `file:${out}`);
  return args;
}

async function* counted(clip: ClipToEncode): AsyncGenerator<Uint8Array> {
  const bytes = clip.width * clip.height * 4;
  let done = 0;
  for await (const frame of clip.frames) {
    if (frame.length !== bytes) throw new Error(`a frame must have ${bytes} bytes, not ${frame.length}`);
    yield frame;
    done += 1;
    clip.onProgress?.(done);
  }
}
