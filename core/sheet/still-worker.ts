import { parentPort } from 'node:worker_threads';
import { AppError } from '../model/errors.ts';
import type { StillAnswer, StillWork } from './still-encoder.ts';
import { encodeStill } from './write-still.ts';

/** Entry of the worker thread that paints and encodes stills; spoken to by still-encoder.ts alone. */

parentPort?.on('message', (work: StillWork) => {
  void answer(work).then((message) => parentPort?.postMessage(message));
});

async function answer({ number, order }: StillWork): Promise<StillAnswer> {
  try {
    return { number, still: await encodeStill(order) };
  } catch (cause) {
    // An error loses its class on the way between threads, so ours travel as data.
    if (cause instanceof AppError)
      return { number, trouble: { code: cause.code, message: cause.message, detail: cause.detail } };
    return { number, fault: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
}
