import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { app } from '../../shell/state/app-state.ts';
import { attempt } from '../../shell/state/messages.ts';
import { marksOn } from '../../swing/state/swing-edit.ts';
import { asNamed, proposedPoints, proposePointsOn } from './proposed-points.ts';

/** A name that is moved step by step rests so long before its frame is looked at, ms. */
const RESTS = 700;

/**
 * In a clip in which points were proposed, today or before, they are looked for on each frame that a name comes onto, aside.
 * Else they would have to be asked for frame by frame. Nothing of it counts, and frames with points on them stay as they are.
 * Returns how to stop.
 */
export function followMovedNames(): () => void {
  let known = namedFrames();
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Clips whose names came onto these frames since the last look. */
  const waiting = new Map<string, Set<number>>();

  function look(): void {
    for (const [clipId, frames] of waiting) {
      const clip = clipsNow().find(({ id }) => id === clipId);
      const wanted = [...frames].filter((frame) => clip !== undefined && isBareAndNamed(clip, frame));
      if (clip !== undefined && wanted.length > 0) void attempt(() => proposeAside(clip, wanted));
    }
    waiting.clear();
  }

  const follow = (): void => {
    const now = namedFrames();
    const moved = [...now].filter(([clipId, frames]) => {
      const before = known.get(clipId);
      return before !== undefined && frames !== before && frames.join() !== before.join();
    });
    for (const [clipId, frames] of moved) {
      const before = known.get(clipId) ?? [];
      const came = frames.filter((frame) => !before.includes(frame));
      waiting.set(clipId, new Set([...(waiting.get(clipId) ?? []), ...came]));
    }
    known = now;
    if (moved.length === 0) return;
    clearTimeout(timer);
    timer = setTimeout(look, RESTS);
  };
  const stop = app.subscribe(follow);
  return () => {
    clearTimeout(timer);
    stop();
  };
}

const clipsNow = (): readonly BookClip[] => app.get().swing?.clips ?? [];

const framesOf = ({ checkpoints }: BookClip): readonly number[] =>
  CHECKPOINTS.flatMap((checkpoint) => checkpoints[checkpoint]?.index ?? []);

function namedFrames(): ReadonlyMap<string, readonly number[]> {
  return new Map(clipsNow().map((clip) => [clip.id, framesOf(clip)]));
}

/** Still named, in a clip in which points were looked for, and neither looked at nor marked by a hand. */
function isBareAndNamed(clip: BookClip, frame: number): boolean {
  const looked = proposedPoints.get()[clip.id];
  const shown = app.get().indexes[clip.id]?.frames[frame];
  const wereAsked = looked !== undefined || clip.marks.some(({ points }) => hasProposed(points));
  if (!wereAsked || looked?.[frame] !== undefined || shown === undefined) return false;
  const { points } = marksOn(clip, { index: frame, pts: shown.pts });
  return framesOf(clip).includes(frame) && Object.keys(points).length === 0;
}

const hasProposed = (points: FrameMarks['points']): boolean =>
  Object.values(points).some(({ proposed }) => proposed !== undefined);

async function proposeAside(clip: BookClip, frames: readonly number[]): Promise<void> {
  const index = app.get().indexes[clip.id];
  const named = frames.map((frame) => asNamed(clip, frame));
  await proposePointsOn(clip, named, () => app.get().indexes[clip.id] === index, true);
}
