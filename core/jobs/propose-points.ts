import { say } from '../model/say.ts';
import { BODY_POINTS } from '../model/body-points.ts';
import { showLearnt } from '../measure/proposed/show-learnt.ts';
import type { LearntError } from '../measure/proposed/learn-errors.ts';
import type { AskedFrame, ProposedPoints } from '../model/proposed-points.ts';
import type { Handedness, View } from '../model/words.ts';
import { findPoses } from '../pose/find-poses.ts';
import { bodyPointsOf } from '../propose/pose.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { openPictureSequence } from '../video/decode/picture-sequence.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

/** What is looked at: frames of a clip, and who is seen on them. */
export interface PointsOrder {
  readonly path: string;
  readonly index: ClipIndex;
  readonly view: View;
  readonly handedness: Handedness;
  /** Each a frame of the clip. */
  readonly frames: readonly AskedFrame[];
  /** What the coach's corrections say of the model; left out: nothing is known. */
  readonly learnt?: readonly LearntError[];
}

/**
 * Where the body points may be on some frames, one answer a frame; null where nobody is seen. Each frame is looked at together
 * with the one before and the one after, which steadies it: a joint moves little meanwhile.
 *
 * @throws AppError as reading frames may throw, and `cancelled`.
 */
export async function proposePoints(
  { path, index, view, handedness, frames, learnt = [] }: PointsOrder,
  ffmpeg: Ffmpeg,
  { signal, report }: JobContext,
): Promise<readonly (ProposedPoints | null)[]> {
  const { width, height } = index;
  const near = (frame: number): readonly number[] =>
    [frame - 1, frame, frame + 1].filter((each) => index.frames[each] !== undefined);
  const wanted = frames.flatMap(({ frame }) => near(frame));
  const sequence = await openPictureSequence(path, index, wanted, { ffmpeg, signal });
  const groups = [];
  try {
    for (const { frame } of frames) {
      const pictures = [];
      for (const each of near(frame)) pictures.push({ width, height, data: await sequence.picture(each) });
      groups.push(pictures);
    }
  } finally {
    await sequence.close();
  }
  const label = say`Looking for body points`;
  report(label, 0, frames.length);
  try {
    const onPose = (found: number): void => report(label, found, frames.length);
    const poses = await findPoses(groups, { signal, onPose });
    const at = new Date().toISOString();
    return poses.map((pose, number) => {
      if (pose === null) return null;
      const seen = bodyPointsOf(pose.landmarks, pose.square, { view, handedness });
      const checkpoint = frames[number]?.checkpoint ?? null;
      const on = { view, handedness, checkpoint, size: pose.square.side, at };
      const shown = BODY_POINTS.flatMap((point) => {
        const place = seen[point];
        return place === undefined ? [] : [[point, showLearnt(point, place, on, learnt)] as const];
      });
      return Object.fromEntries(shown);
    });
  } catch (cause) {
    stopIfCancelled(signal);
    throw cause;
  }
}
