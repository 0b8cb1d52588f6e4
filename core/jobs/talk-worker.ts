import { parentPort, workerData } from 'node:worker_threads';
import { AppError } from '../model/errors.ts';
import { makeFilm } from './make-film.ts';
import type { TalkAnswer, TalkWork } from './talk-orders.ts';

/** Entry of the thread that makes the video of a talk-through; started by render-talk.ts alone, once a video. */

const work = workerData as TalkWork;
const cancel = new AbortController();
parentPort?.on('message', () => cancel.abort());

const say = (answer: TalkAnswer): void => parentPort?.postMessage(answer);

makeFilm(work, {
  signal: cancel.signal,
  report: (label, done, total) => say({ does: 'report', label, done, total: total ?? 0 }),
})
  .then(
    (facts) => say({ does: 'finish', facts }),
    (cause: unknown) => {
      // An error loses its class on the way between threads, so ours travel as data.
      if (cause instanceof AppError)
        say({ does: 'trouble', code: cause.code, message: cause.message, detail: cause.detail });
      else say({ does: 'fault', stack: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) });
    },
  )
  .finally(() => parentPort?.close());
