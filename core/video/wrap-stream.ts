import { randomUUID } from 'node:crypto';
import { access, rename, rm, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import fluent from 'fluent-ffmpeg';
import { readingTrouble } from '../files/file-trouble.ts';
import { AppError } from '../model/errors.ts';
import type { Ratio } from '../model/frame.ts';
import { ratioText } from '../time/rational.ts';
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
 * Puts a bare H.264 stream into an MP4 file without encoding it again. A plain file job, so it is left to fluent-ffmpeg;
 * this is the only file that knows that package (archived in 2025, MIT).
 *
 * Throws AppError: `file-not-found`, `file-unreadable`, `file-empty`, `file-exists`, `cancelled`, `ffmpeg-failed`.
 */
export async function wrapStream({ ffmpeg, stream, rate, out, signal }: StreamToWrap): Promise<void> {
  const facts = await stat(stream).catch((error: unknown) => {
    throw readingTrouble(error, stream);
  });
  if (!facts.isFile()) throw new AppError('file-unreadable', `${stream} is a folder; choose the stream in it.`);
  if (facts.size === 0) throw new AppError('file-empty', `${stream} is empty; copy it from the camera again.`);
  if (await exists(out))
    throw new AppError('file-exists', `${out} exists already; choose another name or remove it first.`);
  if (signal?.aborted === true) throw new AppError('cancelled', 'Cancelled.');

  const temporary = `${out}.${randomUUID()}.part`;
  const command = fluent({ logger: undefined })
    .setFfmpegPath(ffmpeg.path)
    .input(`file:${resolve(stream)}`)
    .inputFormat('h264')
    .inputOptions(['-protocol_whitelist', 'file,pipe', '-fflags', '+genpts', '-framerate', ratioText(rate)])
    .outputOptions(['-c', 'copy', '-movflags', '+faststart'])
    .format('mp4')
    .output(`file:${resolve(temporary)}`);
  const cancel = (): void => {
    command.kill('SIGKILL');
  };
  try {
    await new Promise<void>((done, fail) => {
      signal?.addEventListener('abort', cancel, { once: true });
      command.on('end', () => {
        done();
      });
      command.on('error', (cause: Error, _stdout: string | null, stderr: string | null) => {
        if (signal?.aborted === true) fail(new AppError('cancelled', 'Cancelled.'));
        else
          fail(
            new AppError('ffmpeg-failed', `${stream} could not be put into an MP4 file; choose a bare H.264 stream.`, {
              cause,
              detail: { stream, stderrTail: (stderr ?? '').slice(-8192) },
            }),
          );
      });
      command.run();
    });
    await rename(temporary, out);
  } finally {
    signal?.removeEventListener('abort', cancel);
    await rm(temporary, { force: true });
  }
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
