import { extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { AppError } from '../model/errors.ts';
import type { View } from '../model/words.ts';
import type { Scenario } from '../scene/scenario.ts';
import type { Clothes } from './clothes.ts';

/** The clip that a thread paints. */
export interface PaintWork {
  readonly scenario: Scenario;
  readonly view: View;
  readonly clothes: Clothes;
}

/** A frame that was asked for by its number, as RGBA; null where it is as the one before. Or a fault of ours. */
export type Painted = { readonly picture: Uint8Array<ArrayBuffer> | null } | { readonly fault: string };

/** Beside this file, run from TypeScript as it is or from the built program. */
const WORKER_FILE = join(import.meta.dirname, `paint-worker${extname(import.meta.filename)}`);
/** Frames that are painted before they are asked for. */
const AHEAD = 2;

/**
 * All frames of a clip in order, painted by a thread of its own: a frame takes some 25 ms. The thread ends with the last one,
 * and when nobody wants more. Frames that are alike may be the very same array, which must not be changed.
 *
 * @throws AppError `cancelled`.
 */
export async function* paintedFrames(work: PaintWork, signal: AbortSignal | undefined): AsyncGenerator<Uint8Array> {
  const thread = startPainting(work);
  const stop = (): void => thread.fail(new AppError('cancelled', 'Making the demo was cancelled.'));
  signal?.addEventListener('abort', stop);
  try {
    if (signal?.aborted === true) stop();
    const { frameCount } = work.scenario;
    const coming: Promise<Uint8Array | null>[] = [];
    let last: Uint8Array = new Uint8Array();
    for (let frame = 0, asked = 0; frame < frameCount; frame += 1) {
      for (; asked < Math.min(frameCount, frame + 1 + AHEAD); asked += 1) coming.push(thread.paint(asked));
      last = (await coming.shift()) ?? last;
      yield last;
    }
  } finally {
    signal?.removeEventListener('abort', stop);
    await thread.end();
  }
}

interface Waiting {
  readonly resolve: (picture: Uint8Array | null) => void;
  readonly reject: (cause: Error) => void;
}

function startPainting(work: PaintWork): {
  /** In the order in which they are asked for. */
  readonly paint: (frame: number) => Promise<Uint8Array | null>;
  /** What is asked for, and will be, does not come. */
  readonly fail: (cause: Error) => void;
  readonly end: () => Promise<unknown>;
} {
  const worker = new Worker(WORKER_FILE, { workerData: work });
  const waiting: Waiting[] = [];
  let failed: Error | null = null;
  const fail = (cause: Error): void => {
    failed ??= cause;
    for (const { reject } of waiting.splice(0)) reject(failed);
  };
  worker.on('message', (painted: Painted) => {
    if ('fault' in painted) fail(new Error(painted.fault));
    else waiting.shift()?.resolve(painted.picture);
  });
  worker.on('error', (cause: unknown) => fail(cause instanceof Error ? cause : new Error(String(cause))));
  worker.on('exit', () => fail(new Error('the thread that paints a clip has ended')));
  const paint = (frame: number): Promise<Uint8Array | null> => {
    const painted = new Promise<Uint8Array | null>((resolve, reject) => {
      if (failed !== null) return reject(failed);
      waiting.push({ resolve, reject });
      worker.postMessage(frame);
    });
    // One that nobody waits for yet may fail.
    painted.catch(() => undefined);
    return painted;
  };
  return { paint, fail, end: () => worker.terminate() };
}
