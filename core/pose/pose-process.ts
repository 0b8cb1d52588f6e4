import { findPose } from './find-pose.ts';
import type { PoseAnswer, PoseOrder } from './find-poses.ts';
import { loadPoseModel } from './pose-model.ts';

/** Entry of the process that looks for bodies; started by find-poses.ts alone, and ended by it. */

const model = loadPoseModel();
// Why it cannot be loaded is said to who asks.
model.catch(() => undefined);

process.on('message', (order: PoseOrder) => {
  void answerTo(order).then((answer) => process.send?.(answer));
});
process.on('disconnect', () => process.exit());

async function answerTo(order: PoseOrder): Promise<PoseAnswer> {
  try {
    return { pose: await findPose(await model, order) };
  } catch (cause) {
    return { fault: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
}
