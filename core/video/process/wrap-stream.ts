import { randomUUID } from 'node:crypto';
import { rename, rm, stat } from 'node:fs/promises';
import { readingTrouble, writingTrouble } from '../../files/file-trouble.ts';
import { refuseExisting } from '../../files/refuse-existing.ts';
import { AppError } from '../../model/errors.ts';
import type { Ratio } from '../../model/frame.ts';
import { ratioText } from '../../time/rational.ts';
import { runFileJob } from './file-job.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';

export interface StreamToWrap {
  readonly ffmpeg: Ffmpeg;
  /** A bare H.264 stream (Annex B), which has neither times nor a table. */
  readonly stream: string;
  /** Frames a second to give it. */
  readonly rate: Ratio;
  /** The MP4 file to make; must not exist yet. */
  readonly out: string;
  readonly signal?: AbortSignal | undefined;
}

/**
 * Puts a bare H.264 stream into an MP4 file without encoding it again.
 *
 * Throws AppError: `file-not-found`, `file-unreadable`, `file-empty`, `file-exists`, `cancelled`, `disk-full`,
 * `ffmpeg-failed`.
 */
export async function wrapStream({ ffmpeg, stream, rate, out, signal }: StreamToWrap): Promise<void> {
  const facts = await stat(stream).catch((error: unknown) => {
    throw readingTrouble(error, stream);
  });
  if (!facts.isFile()) throw new AppError('file-unreadable', `${stream} is a folder; choose the stream in it.`);
  if (facts.size === 0) throw new AppError('file-empty', `${stream} is empty; copy it from the camera again.`);
  await refuseExisting(out);

  const temporary = `${out}.${randomUUID()}.part`;
  const inputOptions = ['-protocol_whitelist', 'file,pipe', '-fflags', '+genpts', '-framerate', ratioText(rate)];
  const outputOptions = ['-c', 'copy', '-movflags', '+faststart', '-f', 'mp4'];
  try {
    const failure = await runFileJob({
      ...{ ffmpeg, signal, input: stream, output: temporary, named: out, outputOptions },
      inputOptions: ['-f', 'h264', ...inputOptions],
    });
    if (failure !== null)
      throw new AppError('ffmpeg-failed', `${stream} could not be put into an MP4 file; choose a bare H.264 stream.`, {
        cause: failure.cause,
        detail: { stream, stderrTail: failure.stderrTail },
      });
    await rename(temporary, out);
  } catch (error) {
    throw writingTrouble(error, out);
  } finally {
    await rm(temporary, { force: true });
  }
}
