import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { PicturePoint, PlacedPoint } from '../../../core/model/mark.ts';
import { proposedOn, proposedPoints } from './proposed-points.ts';

/** With `guess` where the place is proposed, and with what is kept of it (core/model/proposed-points.ts). */
export type Start = PicturePoint & Pick<PlacedPoint, 'guess' | 'proposed'>;
export type Starts = Readonly<Partial<Record<BodyPointId, Start>>>;

/** Of each clip the frame that was asked for last: the picture, the run, the enlarged view and the tool all ask for one. */
const known = new WeakMap<BookClip, { readonly index: number; readonly proposed: unknown; readonly starts: Starts }>();

/**
 * Where the guided run starts each body point: where it is proposed, else where it stood on the nearest marked frame before this
 * one; that not on a frame without a name, which may be a frame on the way to another. The same value for the same clip and
 * frame, until points are proposed.
 */
export function startsFor(clip: BookClip, index: number): Starts {
  const last = known.get(clip);
  const proposed = proposedPoints.get();
  if (last?.index === index && last.proposed === proposed) return last.starts;
  const starts = { ...findStarts(clip, index), ...proposedOn(clip, index, proposed) };
  known.set(clip, { index, proposed, starts });
  return starts;
}

function findStarts(clip: BookClip, index: number): Starts {
  if (Object.values(clip.checkpoints).every((named) => named.index !== index)) return {};
  const starts: Partial<Record<BodyPointId, Start>> = {};
  for (const { frame, points } of clip.marks)
    if (frame.index < index)
      for (const point of BODY_POINTS) {
        const placed = points[point];
        if (placed === undefined) continue;
        const { x, y, guess } = placed;
        starts[point] = guess === undefined ? { x, y } : { x, y, guess };
      }
  return starts;
}
