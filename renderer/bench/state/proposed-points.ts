import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks, PlacedPoint } from '../../../core/model/mark.ts';
import type { AskedFrame, ProposedPoint, ProposedPoints } from '../../../core/model/proposed-points.ts';
import { say } from '../../../core/model/say.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { createStore } from '../../shell/state/store.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { pointsOfView } from '../../tools/points-tool.ts';

/** Body points that were proposed, by clip and frame, for as long as the program runs; none of them counts. */
type Proposed = Readonly<Record<string, Readonly<Record<number, ProposedPoints>>>>;
export const proposedPoints = createStore<Proposed>({});

/** Looks for the body points of a frame, and of the one before it that was marked by hand, against which they are set right. */
export async function proposeBodyPoints(clip: BookClip, frame: number): Promise<void> {
  const before = markedBefore(clip, frame);
  const index = app.get().indexes[clip.id];
  const frames = [frame, ...(before === null ? [] : [before.frame.index])].map((each) => asNamed(clip, each));
  const seen = await proposePointsOn(clip, frames, () => app.get().indexes[clip.id] === index);
  if (!seen.includes(frame)) tellDone(say`Nobody is seen on this frame. Place the points by hand.`);
}

/**
 * Looks for the body points of some frames; answers with those on which somebody is seen. `isCurrent`: whether the clip's frames
 * still have the numbers that were asked for; else nothing is kept. `aside`: nothing waits for it.
 */
export async function proposePointsOn(
  clip: BookClip,
  frames: readonly AskedFrame[],
  isCurrent: () => boolean,
  aside = false,
): Promise<readonly number[]> {
  const numbers = frames.map(({ frame }) => frame);
  if (frames.length === 0) return [];
  const { swingId, id } = clip;
  const found = await runJob(
    say`Looking for body points`,
    (jobId) => ask('clip/propose-points', { jobId, swingId, id, frames }),
    aside,
  );
  if (!isCurrent()) return numbers;
  // Where nobody is seen nothing is proposed, and that was looked for too.
  const all = Object.fromEntries(numbers.map((each, at) => [each, found[at] ?? {}]));
  proposedPoints.update((known) => ({ ...known, [id]: { ...known[id], ...all } }));
  return numbers.filter((_, at) => found[at] !== null);
}

/** Drops what was proposed by errors learnt from corrections: those no longer count, or are no longer in the book. */
export function forgetLearntPoints(): void {
  const isLearnt = (points: ProposedPoints): boolean =>
    Object.values(points).some(({ proposed }) => proposed.learnt !== undefined);
  proposedPoints.update((all) =>
    Object.fromEntries(
      Object.entries(all).map(([id, frames]) => [
        id,
        Object.fromEntries(Object.entries(frames).filter(([, points]) => !isLearnt(points))),
      ]),
    ),
  );
}

/** A frame with the name that it has. */
export function asNamed({ checkpoints }: Pick<BookClip, 'checkpoints'>, frame: number): AskedFrame {
  return { frame, checkpoint: CHECKPOINTS.find((each) => checkpoints[each]?.index === frame) ?? null };
}

/**
 * Where the points of a frame are proposed. By how much the coach put them elsewhere on the marked frame before, they are
 * moved here too: what program and coach mean by a joint differs, and by much the same on two frames of a swing. Not so a point whose
 * error is learnt: that is taken out already, and what is left differs from posture to posture (docs/proposals.md).
 */
export function proposedOn(clip: BookClip, frame: number, all: Proposed = proposedPoints.get()): ProposedPoints {
  const here = all[clip.id]?.[frame];
  if (here === undefined) return {};
  const before = markedBefore(clip, frame);
  const there = before === null ? undefined : all[clip.id]?.[before.frame.index];
  return Object.fromEntries(
    Object.entries(here).map(([id, point]): [string, ProposedPoint] => {
      const [placed, proposed] = [before?.points[id as BodyPointId], there?.[id as BodyPointId]];
      const isByHand = placed !== undefined && placed.guess === undefined && !placed.hidden && proposed !== undefined;
      if (!isByHand || point.proposed.learnt !== undefined) return [id, point];
      const shown = { x: point.x + placed.x - proposed.x, y: point.y + placed.y - proposed.y };
      return [id, { ...point, ...shown, proposed: { ...point.proposed, ...shown } }];
    }),
  );
}

/** The nearest frame before this one with a point that a hand placed. */
function markedBefore(clip: BookClip, frame: number): FrameMarks | null {
  const isByHand = ({ points }: FrameMarks): boolean => Object.values(points).some(({ guess }) => guess === undefined);
  return clip.marks.findLast((marks) => marks.frame.index < frame && isByHand(marks)) ?? null;
}

/** The points of a frame's run that are proposed and not placed. */
export function openPoints(clip: BookClip, marks: FrameMarks, run: readonly BodyPointId[]): readonly BodyPointId[] {
  const proposed = proposedOn(clip, marks.frame.index);
  return run.filter((point) => proposed[point] !== undefined && marks.points[point] === undefined);
}

/**
 * The points proposed on a named frame on which none is placed: a name was moved there after points were asked for. Enter accepts
 * them all. Where some are placed, the others were left out by who placed them.
 */
export function openOnNamed(clip: BookClip, marks: FrameMarks): readonly BodyPointId[] {
  const { checkpoint: named } = asNamed(clip, marks.frame.index);
  if (named === null || Object.keys(marks.points).length > 0) return [];
  return openPoints(clip, marks, pointsOfView(clip.view, named));
}

/** Places all of them where they are proposed, in one edit. */
export function acceptPoints(clip: BookClip, marks: FrameMarks, run: readonly BodyPointId[]): void {
  const proposed = proposedOn(clip, marks.frame.index);
  const placed = openPoints(clip, marks, run).flatMap((point): readonly [BodyPointId, PlacedPoint][] => {
    const at = proposed[point];
    return at === undefined ? [] : [[point, { ...at, hidden: false }]];
  });
  if (placed.length > 0) keepMarks(clip.id, { ...marks, points: { ...marks.points, ...Object.fromEntries(placed) } });
}
