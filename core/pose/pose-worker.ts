import { parentPort, workerData } from 'node:worker_threads';
import { findPose } from './find-pose.ts';
import { loadPoseModel } from './pose-model.ts';
import type { PoseAnswer, PoseWork } from './pose-thread.ts';

/** Entry of the thread that looks for bodies; started by pose-thread.ts alone, and ended by it. */

const say = (answer: PoseAnswer): void => parentPort?.postMessage(answer);

try {
  const model = await loadPoseModel();
  for (const pictures of (workerData as PoseWork).groups) say({ pose: await findPose(model, pictures) });
} catch (cause) {
  say({ fault: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) });
}
