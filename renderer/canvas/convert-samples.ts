import { LANGUAGE_TOLD } from '../../core/model/language.ts';
import type { PictureLayout } from '../../core/model/picture-layout.ts';
import type { Converted, ToConvert } from './convert-worker.ts';

/** The page's end of convert-worker.ts, which is started with the first picture and lives as long as the page. */
let worker: Worker | null = null;
let last = 0;
const waiting = new Map<number, Pending>();

interface Pending {
  readonly resolve: (picture: ImageBitmap) => void;
  readonly reject: (error: Error) => void;
}

/**
 * A clip's own samples as a picture, which is the caller's to close. Takes `data` over: it cannot be read afterwards.
 * Rejects when the samples are too few.
 */
export function convertSamples(layout: PictureLayout, data: Uint8Array): Promise<ImageBitmap> {
  worker ??= start();
  const id = (last += 1);
  const converted = new Promise<ImageBitmap>((resolve, reject) => waiting.set(id, { resolve, reject }));
  worker.postMessage({ id, layout, data } satisfies ToConvert, [data.buffer]);
  return converted;
}

/** Ends the thread, and with it what it holds; it starts again with the next picture. What is under way is rejected. */
export function restConverting(): void {
  worker?.terminate();
  worker = null;
  for (const { reject } of waiting.values()) reject(new Error('closed'));
  waiting.clear();
}

function start(): Worker {
  const started = new Worker(new URL('./convert-worker.ts', import.meta.url), { type: 'module', name: LANGUAGE_TOLD });
  started.addEventListener('message', ({ data: { id, picture, error } }: MessageEvent<Converted>) => {
    const converted = waiting.get(id);
    waiting.delete(id);
    if (picture === undefined) converted?.reject(new Error(error));
    else converted?.resolve(picture);
  });
  started.addEventListener('error', ({ message }) => {
    if (worker === started) worker = null;
    for (const { reject } of waiting.values()) reject(new Error(message));
    waiting.clear();
  });
  return started;
}
