import { open, rm, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { say } from '../../model/say.ts';
import { writingTrouble } from '../../files/file-trouble.ts';
import { requireFile } from '../../files/find-file.ts';
import { AppError } from '../../model/errors.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { endedWell, requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';

/** Samples a second of a video's sound: one channel, 16 bits, so that a millisecond is whole samples. */
export const FILM_SAMPLE_RATE = 48_000;
const BYTES_A_MILLISECOND = (FILM_SAMPLE_RATE / 1000) * 2;
/** Where sound was cut it fades out and in, so that no click is heard; milliseconds. */
const FADE_MS = 5;
const CHUNK_MS = 5000;
const LIMIT_MS = 60 * 60_000;

/** A stretch of sound: milliseconds of the file, whole; null = silence as long. */
export interface SoundPart {
  readonly file: string | null;
  readonly from: number;
  readonly to: number;
}

export interface SoundOrder {
  readonly ffmpeg: Ffmpeg;
  /** One after the other. */
  readonly parts: readonly SoundPart[];
  /** Silence at the end, milliseconds, >= 0. */
  readonly silenceAfter: number;
  /** For what is only needed meanwhile. */
  readonly folder: string;
  /** The file to make: 16-bit samples, nothing else. */
  readonly out: string;
  readonly signal?: AbortSignal | undefined;
}

/**
 * Puts the sound of a video together, to the very sample. What a file lacks at its end is silence.
 * @throws AppError `file-not-found`, `file-unreadable` (no sound in it), `disk-full`, `not-writable`, `cancelled`.
 */
export async function assembleSound(order: SoundOrder): Promise<void> {
  const { parts, silenceAfter, folder, out } = order;
  const decoded = new Map<string, string>();
  const made: string[] = [];
  try {
    const file = await open(out, 'wx');
    try {
      for (const part of parts) {
        if (part.file === null) {
          await writeSilence(file, part.to - part.from);
          continue;
        }
        let raw = decoded.get(part.file);
        if (raw === undefined) {
          raw = join(folder, `sound-${String(decoded.size)}.raw`);
          made.push(raw);
          await decodeSound(part.file, raw, order);
          decoded.set(part.file, raw);
        }
        await copyPart(raw, part, file);
      }
      await writeSilence(file, silenceAfter);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw writingTrouble(error, out);
  } finally {
    await Promise.all(made.map((path) => rm(path, { force: true })));
  }
}

async function decodeSound(path: string, raw: string, { ffmpeg, signal }: SoundOrder): Promise<void> {
  await requireFile(path);
  const args = ['-v', 'error', '-protocol_whitelist', 'file,pipe', '-i', `file:${path}`, '-map', '0:a:0'];
  args.push('-ac', '1', '-ar', String(FILM_SAMPLE_RATE), '-c:a', 'pcm_s16le', '-f', 's16le', '-y', `file:${raw}`);
  const { end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS });
  requireSuccess(end);
  if (!endedWell(end))
    throw new AppError('file-unreadable', say`${path} holds no sound that can be read. Record that part anew.`, {
      detail: { path, stderrTail: end.stderrTail },
    });
}

async function copyPart(raw: string, { from, to }: SoundPart, out: FileHandle): Promise<void> {
  const source = await open(raw, 'r');
  try {
    for (let at = from; at < to; at += CHUNK_MS) {
      const until = Math.min(to, at + CHUNK_MS);
      const bytes = new Uint8Array((until - at) * BYTES_A_MILLISECOND);
      await readFully(source, bytes, at * BYTES_A_MILLISECOND);
      fade(new Int16Array(bytes.buffer), at - from, to - at);
      await writeFully(out, bytes);
    }
  } finally {
    await source.close();
  }
}

/** What lies past the end of the file stays silent. */
async function readFully(source: FileHandle, bytes: Uint8Array, position: number): Promise<void> {
  for (let done = 0; done < bytes.length;) {
    const { bytesRead } = await source.read(bytes, done, bytes.length - done, position + done);
    if (bytesRead === 0) return;
    done += bytesRead;
  }
}

async function writeFully(out: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let done = 0; done < bytes.length;) done += (await out.write(bytes, done)).bytesWritten;
}

/** `before` and `left`: milliseconds of the part before and from the first sample. */
function fade(samples: Int16Array, before: number, left: number): void {
  const perMs = FILM_SAMPLE_RATE / 1000;
  const over = FADE_MS * perMs;
  const begun = before * perMs;
  const end = left * perMs;
  for (const [at, sample] of samples.entries()) {
    const gain = Math.min(1, (begun + at) / over, (end - at) / over);
    if (gain < 1) samples[at] = Math.round(sample * gain);
  }
}

async function writeSilence(out: FileHandle, milliseconds: number): Promise<void> {
  for (let left = milliseconds; left > 0; left -= CHUNK_MS)
    await writeFully(out, new Uint8Array(Math.min(left, CHUNK_MS) * BYTES_A_MILLISECOND));
}
