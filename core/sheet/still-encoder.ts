import { extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { say } from '../model/say.ts';
import { AppError, type ErrorCode, type ErrorDetail } from '../model/errors.ts';
import type { EncodedStill, StillOrder } from './write-still.ts';

export type StillContent = Omit<StillOrder, 'path' | 'overwrite'>;

/** What goes to the worker thread, numbered so that answers find their question. */
export interface StillWork {
  readonly number: number;
  readonly order: StillContent;
}

/** What comes back: a still, trouble for people, or a fault of ours. */
export type StillAnswer =
  | { readonly number: number; readonly still: EncodedStill }
  | {
      readonly number: number;
      readonly trouble: { readonly code: ErrorCode; readonly message: string; readonly detail: ErrorDetail };
    }
  | { readonly number: number; readonly fault: string };

/** Makes stills aside from the main thread, which stays free for the window. Whoever opens one closes it. */
export interface StillEncoder {
  /**
   * As `encodeStill`. RGBA pixels are handed over, not copied: the arrays of the order are empty afterwards.
   * @throws AppError also `cancelled` when the encoder is closed meanwhile.
   */
  encode(order: StillContent): Promise<EncodedStill>;
  /** Ends the thread, whatever it is at. Safe to call twice. */
  close(): Promise<void>;
}

interface Asked {
  readonly resolve: (still: EncodedStill) => void;
  readonly reject: (cause: Error) => void;
}

/** Beside this file, run from TypeScript as it is or from the built program. */
const WORKER_FILE = join(import.meta.dirname, `still-worker${extname(import.meta.filename)}`);

const running = new Set<Worker>();

/** How many threads of ours are running, for tests that nothing is left behind. */
export function runningEncoders(): number {
  return running.size;
}

export function openStillEncoder(): StillEncoder {
  const worker = new Worker(WORKER_FILE);
  running.add(worker);
  const asked = new Map<number, Asked>();
  let asks = 0;
  let ended: Error | null = null;

  function end(cause: Error): void {
    ended ??= cause;
    for (const { reject } of asked.values()) reject(ended);
    asked.clear();
  }
  worker.on('message', (answer: StillAnswer) => {
    const question = asked.get(answer.number);
    asked.delete(answer.number);
    if ('still' in answer) question?.resolve(answer.still);
    else if ('trouble' in answer) {
      const { code, message, detail } = answer.trouble;
      question?.reject(new AppError(code, message, { detail }));
    } else question?.reject(new Error(answer.fault));
  });
  worker.on('error', end);
  worker.on('exit', () => {
    running.delete(worker);
    end(new Error('the thread that makes stills ended by itself'));
  });

  return {
    encode(order) {
      if (ended !== null) return Promise.reject(ended);
      const number = (asks += 1);
      return new Promise((resolve, reject) => {
        asked.set(number, { resolve, reject });
        worker.postMessage({ number, order } satisfies StillWork, pixelsOf(order));
      });
    },
    async close() {
      end(new AppError('cancelled', say`Stopped. The still was not made.`));
      await worker.terminate();
    },
  };
}

/** The memory that can change hands: what an array shares with others is copied, and nothing may be named twice. */
function pixelsOf({ rows }: StillContent): ArrayBuffer[] {
  const whole = new Set<ArrayBuffer>();
  for (const { picture } of rows.flatMap(({ panels }) => panels)) {
    if (!('rgba' in picture)) continue;
    const { buffer, byteLength } = picture.rgba;
    if (buffer instanceof ArrayBuffer && buffer.byteLength === byteLength) whole.add(buffer);
  }
  return [...whole];
}
