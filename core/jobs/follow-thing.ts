import type { FollowedPlace, FollowedThing } from '../model/followed.ts';
import type { PathSubject, PicturePoint } from '../model/mark.ts';
import { say } from '../model/say.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { lumaSize, readLuma } from '../video/decode/read-luma.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { startFollowing } from './follow-thread.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

export interface FollowOrder {
  readonly path: string;
  readonly index: ClipIndex;
  readonly subject: PathSubject;
  /** Where it is on which frame. */
  readonly frame: number;
  readonly at: PicturePoint;
  /** The last frame to follow it to, > frame. */
  readonly until: number;
}

/** More lines tell nothing more of where a hand is. */
const MOST_LINES = 1080;
/** How far round its place a thing is looked at, pixels of a picture 1080 lines high; and never less than this many. */
const RADIUS: Readonly<Record<PathSubject, number>> = { clubhead: 12, hands: 16, head: 24, ball: 9 };
const LEAST_RADIUS = 5;

/**
 * Follows a thing from where a hand put it, frame by frame, until it is lost or the last frame has come; in a thread that ends
 * with it.
 *
 * @throws AppError as reading the clip may throw, and `cancelled`.
 */
export async function followThing(order: FollowOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<FollowedThing> {
  const { path, index, subject, frame: first, at, until } = order;
  const { width, height } = lumaSize(index, MOST_LINES);
  const scale = height / index.height;
  const radius = Math.max(LEAST_RADIUS, Math.round((RADIUS[subject] * height) / MOST_LINES));
  const places: FollowedPlace[] = [];
  const span = { from: first, to: until };
  const from = { x: at.x * scale, y: at.y * scale };
  const thread = startFollowing({ at: from, width, height, radius });
  try {
    let begun = false;
    for await (const { frame, samples } of readLuma(path, index, {
      ...{ ffmpeg, signal: run.signal, span, lines: MOST_LINES },
    })) {
      stopIfCancelled(run.signal);
      // A frame without a picture shows nothing to follow on; the thing is looked for on the one after it.
      const to = await thread.next(new Uint8Array(samples));
      if ('lost' in to) return { places, lost: to.lost };
      if (begun) places.push({ frame, x: to.at.x / scale, y: to.at.y / scale });
      begun = true;
      run.report(say`Following it`, frame - first, until - first);
    }
  } finally {
    await thread.end();
  }
  stopIfCancelled(run.signal);
  return { places, lost: null };
}
