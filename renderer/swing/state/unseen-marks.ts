import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import type { Target } from '../../tools/target.ts';
import { createStore } from '../../shell/state/store.ts';

/**
 * A frame on which something was placed before any picture of it was on screen. It is kept as all marks are; that nobody
 * has seen it on its picture is said until somebody has. By time stamp: a clip that is settled may number its frames anew.
 */
export interface UnseenMarks {
  readonly clipId: string;
  readonly pts: number;
  readonly targets: readonly Target[];
}

export const unseenMarks = createStore<readonly UnseenMarks[]>([]);

/** What differs in the marks of a frame; what was taken away is nothing to look at. */
export function changedTargets(before: FrameMarks, after: FrameMarks): readonly Target[] {
  const points = BODY_POINTS.flatMap((point): Target[] => {
    const [was, is] = [before.points[point], after.points[point]];
    return is === undefined || (was?.x === is.x && was.y === is.y) ? [] : [{ kind: 'point', point }];
  });
  const shapes = after.shapes.flatMap((shape): Target[] => {
    const was = before.shapes.find(({ id }) => id === shape.id);
    const isSame = was !== undefined && JSON.stringify(was) === JSON.stringify(shape);
    return isSame ? [] : [{ kind: 'shape', id: shape.id, handle: null }];
  });
  return [...points, ...shapes];
}

export function unseenOn(all: readonly UnseenMarks[], clipId: string, pts: number): UnseenMarks | null {
  return all.find((each) => each.clipId === clipId && each.pts === pts) ?? null;
}

/** Notes what was placed unseen on a frame, beside what was already. */
export function noteUnseen(clipId: string, pts: number, targets: readonly Target[]): void {
  if (targets.length === 0) return;
  unseenMarks.update((all) => {
    const earlier = unseenOn(all, clipId, pts);
    const kept = (earlier?.targets ?? []).filter((target) => !targets.some((each) => isSame(each, target)));
    return [...all.filter((each) => each !== earlier), { clipId, pts, targets: [...kept, ...targets] }];
  });
}

/** Somebody has seen what was placed on the frame. */
export function forgetUnseen(clipId: string, pts: number): void {
  unseenMarks.update((all) => {
    const seen = unseenOn(all, clipId, pts);
    return seen === null ? all : all.filter((each) => each !== seen);
  });
}

function isSame(one: Target, other: Target): boolean {
  if (one.kind === 'point') return other.kind === 'point' && other.point === one.point;
  return other.kind === 'shape' && other.id === one.id;
}

/** Those of a frame's unseen marks that are still there: some may have been taken back since. */
export function leftUnseen({ marks }: Pick<BookClip, 'marks'>, { pts, targets }: UnseenMarks): readonly Target[] {
  return targets.filter((target) =>
    marks.some((each) =>
      target.kind === 'point'
        ? each.frame.pts === pts && each.points[target.point] !== undefined
        : each.shapes.some(({ id }) => id === target.id),
    ),
  );
}
