import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';

export type Starts = Readonly<Partial<Record<BodyPointId, PicturePoint>>>;

/** Of each clip the frame that was asked for last: the picture, the run, the enlarged view and the tool all ask for one. */
const known = new WeakMap<BookClip, { readonly index: number; readonly starts: Starts }>();

/**
 * Of each body point the place on the nearest marked frame before this one: from there the guided run starts. None on a
 * frame without a name, which may be a frame on the way to another. The same value for the same clip and frame.
 */
export function startsFor(clip: BookClip, index: number): Starts {
  const last = known.get(clip);
  if (last?.index === index) return last.starts;
  const starts = findStarts(clip, index);
  known.set(clip, { index, starts });
  return starts;
}

function findStarts(clip: BookClip, index: number): Starts {
  if (Object.values(clip.checkpoints).every((named) => named.index !== index)) return {};
  const starts: Partial<Record<BodyPointId, PicturePoint>> = {};
  for (const { frame, points } of clip.marks)
    if (frame.index < index)
      for (const point of BODY_POINTS) {
        const placed = points[point];
        if (placed !== undefined) starts[point] = { x: placed.x, y: placed.y };
      }
  return starts;
}
