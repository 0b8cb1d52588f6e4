import { parentPort, workerData } from 'node:worker_threads';
import { beginFollowing, followStep, type Following } from '../propose/follow.ts';
import type { FollowAnswer, FollowWork } from './follow-thread.ts';

/** Entry of the thread that follows a thing from picture to picture; started by follow-thread.ts alone, and ended by it. */

const { at, ...size } = workerData as FollowWork;
let state: Following | null = null;

parentPort?.on('message', (picture: Uint8Array) => {
  parentPort?.postMessage(answerTo(picture));
});

function answerTo(picture: Uint8Array): FollowAnswer {
  try {
    if (state === null) {
      state = beginFollowing({ picture, at });
      return { at };
    }
    const next = followStep(state, picture, size);
    if ('lost' in next) return next;
    state = next;
    return { at: next.last.at };
  } catch (cause) {
    return { fault: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
}
