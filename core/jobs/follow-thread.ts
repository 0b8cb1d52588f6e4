import { extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { LostWhy } from '../model/followed.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { FollowSize } from '../propose/follow.ts';

/** What is followed: its place on the first picture, and the size of all of them. */
export interface FollowWork extends FollowSize {
  readonly at: PicturePoint;
}

/** Where the thing is on a picture, or why it is lost there. */
export type FollowedTo = { readonly at: PicturePoint } | { readonly lost: LostWhy };

/** One a picture, in their order; or a fault of ours. */
export type FollowAnswer = FollowedTo | { readonly fault: string };

/** Beside this file, run from TypeScript as it is or from the built program. */
const WORKER_FILE = join(import.meta.dirname, `follow-worker${extname(import.meta.filename)}`);

/** A thread that follows one thing. */
export interface FollowThread {
  /** Where it is on the next picture; on the first, where it begins. The picture's memory goes with it, and is empty here after. */
  next(picture: Uint8Array<ArrayBuffer>): Promise<FollowedTo>;
  end(): Promise<void>;
}

/**
 * Starts the thread: a step takes some 45 ms of a picture of 1080 lines, too long for the one that answers the window. `end` ends
 * it, whatever it does, and fails what is asked of it still.
 */
export function startFollowing(work: FollowWork): FollowThread {
  const worker = new Worker(WORKER_FILE, { workerData: work });
  let waiting: { readonly resolve: (to: FollowedTo) => void; readonly reject: (cause: Error) => void } | null = null;
  let failed: Error | null = null;
  const fail = (cause: Error): void => {
    failed ??= cause;
    waiting?.reject(failed);
    waiting = null;
  };
  worker.on('message', (answer: FollowAnswer) => {
    if ('fault' in answer) return fail(new Error(answer.fault));
    waiting?.resolve(answer);
    waiting = null;
  });
  worker.on('error', (cause: unknown) => fail(cause instanceof Error ? cause : new Error(String(cause))));
  worker.on('exit', () => fail(new Error('the thread that follows a thing has ended')));
  return {
    next: (picture) =>
      new Promise((resolve, reject) => {
        if (failed !== null) return reject(failed);
        if (waiting !== null) return reject(new Error('one picture at a time is followed'));
        waiting = { resolve, reject };
        worker.postMessage(picture, [picture.buffer]);
      }),
    async end() {
      await worker.terminate();
    },
  };
}
