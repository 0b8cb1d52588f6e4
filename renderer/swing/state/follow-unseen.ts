import { say } from '../../../core/model/say.ts';
import { app } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { openBench } from '../../bench/state/bench-actions.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { forgetUnseen, leftUnseen, unseenMarks, unseenOn } from './unseen-marks.ts';

interface OnBench {
  readonly clipId: string;
  readonly pts: number;
  readonly isSeen: boolean;
}

function onBench({ bench, indexes }: AppState): OnBench | null {
  const pts = bench === null ? undefined : indexes[bench.clipId]?.frames[bench.index]?.pts;
  if (bench === null || pts === undefined) return null;
  return { clipId: bench.clipId, pts, isSeen: bench.picture === 'quick' || bench.picture === 'exact' };
}

/**
 * Follows the frame on the bench; returns how to stop. Who leaves a frame whose picture was on screen has seen what was
 * placed there; of any other frame it is told where to look.
 */
export function followUnseen(): () => void {
  let last = onBench(app.get());
  return app.subscribe(() => {
    const now = onBench(app.get());
    const left = last;
    last = now;
    if (left === null || (now?.clipId === left.clipId && now.pts === left.pts)) return;
    if (left.isSeen) forgetUnseen(left.clipId, left.pts);
    else if (unseenOn(unseenMarks.get(), left.clipId, left.pts) !== null) tellUnseen(now);
  });
}

/** Names the frames, other than the one on the bench, on which something was placed unseen; one step leads to the first. */
function tellUnseen(now: OnBench | null): void {
  const { swing, indexes } = app.get();
  const elsewhere = unseenMarks
    .get()
    .filter(({ clipId, pts }) => clipId !== now?.clipId || pts !== now.pts)
    .flatMap((unseen) => {
      const { clipId, pts } = unseen;
      const clip = swing?.clips.find(({ id }) => id === clipId);
      const index = indexes[clipId]?.frames.findIndex((frame) => frame.pts === pts) ?? -1;
      const count = clip === undefined ? 0 : leftUnseen(clip, unseen).length;
      return count === 0 || index < 0 ? [] : [{ clipId, index, count }];
    })
    .toSorted((one, other) => one.index - other.index);
  const [first] = elsewhere;
  if (first === undefined) return;
  const frames = elsewhere.map(({ index }) => String(index)).join(', ');
  const count = elsewhere.reduce((sum, each) => sum + each.count, 0);
  const words =
    count === 1
      ? say`1 mark was placed on frame ${frames} before its picture was on screen. Look at it again.`
      : elsewhere.length === 1
        ? say`${count} marks were placed on frame ${frames} before its picture was on screen. Look at them again.`
        : say`${count} marks were placed on frames ${frames} before their pictures were on screen. Look at them again.`;
  tellDone(words, {
    label: say`Go to frame ${String(first.index)}`,
    run: () => openBench(first.clipId, first.index),
    waits: true,
  });
}
