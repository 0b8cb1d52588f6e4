import { extname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { FoundPose } from './find-pose.ts';
import type { RgbaPicture } from './pose-model.ts';

/** Of each group, pictures next to each other, the body is looked for once. */
export interface PoseWork {
  readonly groups: readonly (readonly RgbaPicture[])[];
}

/** One a group, in their order; or a fault of ours, which ends it. */
export type PoseAnswer = { readonly pose: FoundPose | null } | { readonly fault: string };

/** Beside this file, run from TypeScript as it is or from the built program. */
const WORKER_FILE = join(import.meta.dirname, `pose-worker${extname(import.meta.filename)}`);

/**
 * Looks for the body in each group of pictures, in a thread that ends with it: the model and its memory, some 200 MB, go with
 * the thread. `onPose` is called after each.
 *
 * @throws Error when the thread fails, `AbortError` once `signal` is aborted
 */
export async function findPoses(
  work: PoseWork,
  { signal, onPose }: { readonly signal: AbortSignal; readonly onPose: (found: number) => void },
): Promise<readonly (FoundPose | null)[]> {
  signal.throwIfAborted();
  const worker = new Worker(WORKER_FILE, { workerData: work });
  const poses: (FoundPose | null)[] = [];
  let stop = (): void => undefined;
  try {
    return await new Promise((resolve, reject) => {
      stop = () => reject(signal.reason as Error);
      signal.addEventListener('abort', stop, { once: true });
      worker.on('message', (answer: PoseAnswer) => {
        if ('fault' in answer) return reject(new Error(answer.fault));
        poses.push(answer.pose);
        onPose(poses.length);
        if (poses.length === work.groups.length) resolve(poses);
      });
      worker.on('error', reject);
      worker.on('exit', () => reject(new Error('the thread that looks for bodies ended by itself')));
    });
  } finally {
    signal.removeEventListener('abort', stop);
    await worker.terminate();
  }
}
