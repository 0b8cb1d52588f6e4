import { LANGUAGE_TOLD } from '../../core/model/language.ts';
import type { CodedStart } from '../../core/time/first-picture.ts';
import type { Orientation } from '../../core/time/display-matrix.ts';
import { ask } from '../api.ts';
import type { Sighted } from './first-sight-worker.ts';

/** The first picture of a file, ready to be drawn as it is stored: small, and given back with the last who holds it. */
export interface FirstSight extends Orientation {
  readonly picture: ImageBitmap;
}

/**
 * The first picture of a chosen file, before its frames are listed. The window's own decoder makes it where it can, which
 * needs no other program to start; else ffmpeg does. Null where there is none: the file says itself what is wrong.
 */
export async function readFirstSight(path: string): Promise<FirstSight | null> {
  // Begins while the file is read.
  const worker = startDecoder();
  try {
    const start = await ask('clip/coded-start', { path });
    const picture = start === null || worker === null ? null : await decodedBy(worker, start);
    if (start !== null && picture !== null) return { turn: start.turn, mirrored: start.mirrored, picture };
    const made = await ask('clip/first-picture', { path });
    if (made === null) return null;
    const { turn, mirrored, data } = made;
    return { turn, mirrored, picture: await createImageBitmap(new Blob([data])) };
  } catch {
    return null;
  } finally {
    worker?.terminate();
  }
}

/** Null where there are no threads: then ffmpeg makes the picture. */
function startDecoder(): Worker | null {
  try {
    return new Worker(new URL('./first-sight-worker.ts', import.meta.url), { type: 'module', name: LANGUAGE_TOLD });
  } catch {
    return null;
  }
}

/** How long a decoder is waited for, ms; one picture takes a tenth of a second. */
const DECODER_LIMIT_MS = 4000;

/** Null where the window has no decoder for it, it gives up or does not come to an end. Takes the coded pictures over. */
function decodedBy(worker: Worker, start: CodedStart): Promise<ImageBitmap | null> {
  return new Promise((resolve) => {
    worker.addEventListener('message', ({ data }: MessageEvent<Sighted>) => resolve(data.picture));
    worker.addEventListener('error', () => resolve(null));
    setTimeout(() => resolve(null), DECODER_LIMIT_MS);
    worker.postMessage(start, [start.data.buffer]);
  });
}
