import type { ChildProcess } from 'node:child_process';
import { extname, join } from 'node:path';
import { startOwnProcess } from '../files/own-process.ts';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { FoundPose } from './find-pose.ts';
import type { RgbaPicture } from './pose-model.ts';

/** Pictures next to each other, in the middle one of which the body is looked for. */
export type PoseOrder = readonly RgbaPicture[];

/** What is found of one order; or a fault of ours. */
export type PoseAnswer = { readonly pose: FoundPose | null } | { readonly fault: string };

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `pose-process${extname(import.meta.filename)}`);

/** How long one answer may take, ms, with the start of the process. It takes 3,000 at most on a quiet machine. */
const ANSWER_LIMIT_MS = 90_000;
/** Processes that are started for one order before it is given up. */
const TRIES = 2;

/**
 * Looks for the body in each group of pictures, one answer a group, in a process that ends with it: the model and its memory,
 * some 200 MB, go with it. One that does not answer is ended, and another one asked: a thread that hangs in compiling the model
 * could not be ended, and would hold up every thread after it. `onPose` is called after each group.
 *
 * @throws AppError `timed-out`; Error when the process fails; `AbortError` once `signal` is aborted
 */
export async function findPoses(
  groups: readonly PoseOrder[],
  {
    signal,
    onPose,
    limitMs = ANSWER_LIMIT_MS,
  }: { readonly signal: AbortSignal; readonly onPose: (found: number) => void; readonly limitMs?: number },
): Promise<readonly (FoundPose | null)[]> {
  const poses: (FoundPose | null)[] = [];
  let child: ChildProcess | null = null;
  const end = (): void => {
    child?.kill('SIGKILL');
    child = null;
  };
  try {
    for (const group of groups) {
      let pose: FoundPose | null | undefined;
      for (let tries = 0; pose === undefined; tries += 1) {
        signal.throwIfAborted();
        if (tries === TRIES) throw tookTooLong();
        child ??= startOwnProcess(ENTRY);
        pose = await askOnce(child, group, signal, limitMs);
        if (pose === undefined) end();
      }
      poses.push(pose);
      onPose(poses.length);
    }
    return poses;
  } finally {
    end();
  }
}

const tookTooLong = (): AppError =>
  new AppError(
    'timed-out',
    say`Looking for body points took too long and was stopped. Place them by hand, or try again.`,
  );

/** What the process finds; undefined when it says nothing in time. */
function askOnce(
  child: ChildProcess,
  order: PoseOrder,
  signal: AbortSignal,
  limitMs: number,
): Promise<FoundPose | null | undefined> {
  return new Promise<FoundPose | null | undefined>((resolve, reject) => {
    const over = (): void => {
      clearTimeout(timer);
      signal.removeEventListener('abort', stop);
      child.off('message', hear).off('error', gone).off('exit', gone);
    };
    const timer = setTimeout(() => {
      over();
      resolve(undefined);
    }, limitMs);
    const stop = (): void => {
      over();
      reject(signal.reason as Error);
    };
    const hear = (answer: PoseAnswer): void => {
      over();
      if ('fault' in answer) reject(new Error(answer.fault));
      else resolve(answer.pose);
    };
    const gone = (cause: unknown): void => {
      over();
      reject(new Error(`the process that looks for bodies ended by itself (${String(cause)})`, { cause }));
    };
    signal.addEventListener('abort', stop, { once: true });
    child.on('message', hear).once('error', gone).once('exit', gone);
    child.send(order);
  });
}
