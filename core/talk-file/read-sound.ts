import { open } from 'node:fs/promises';
import { readingTrouble } from '../files/file-trouble.ts';
import { WAVE_HEADER_BYTES } from '../files/wave-file.ts';
import { TALK_SAMPLE_RATE } from './take-files.ts';

const SAMPLES_A_MS = TALK_SAMPLE_RATE / 1000;
const BYTES_A_SAMPLE = 2;

/**
 * The samples of a take's sound (`beginTake`) from one millisecond of its file to another, whole. What lies past its end is
 * left out. @throws AppError `file-not-found`, `file-unreadable`.
 */
export async function readTakeSound(path: string, from: number, to: number): Promise<Int16Array> {
  const file = await open(path, 'r').catch((cause: unknown) => {
    throw readingTrouble(cause, path);
  });
  try {
    const bytes = new Uint8Array(Math.max(0, to - from) * SAMPLES_A_MS * BYTES_A_SAMPLE);
    const start = WAVE_HEADER_BYTES + from * SAMPLES_A_MS * BYTES_A_SAMPLE;
    let done = 0;
    for (;;) {
      const { bytesRead } = await file.read(bytes, done, bytes.length - done, start + done);
      done += bytesRead;
      if (bytesRead === 0 || done === bytes.length) break;
    }
    return new Int16Array(bytes.buffer, 0, Math.floor(done / BYTES_A_SAMPLE));
  } finally {
    await file.close();
  }
}
