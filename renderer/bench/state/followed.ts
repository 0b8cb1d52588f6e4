import type { BookClip } from '../../../core/model/book.ts';
import { followedGuess, type FollowedThing } from '../../../core/model/followed.ts';
import type { FrameMarks, PathPlace, PathSubject, PicturePoint } from '../../../core/model/mark.ts';
import { say } from '../../../core/model/say.ts';
import { frameWithPts } from '../../../core/time/frame-table.ts';
import { PLACING_LINES } from '../../../core/measure/uncertainty/placing.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { withPlaces, type PathScene } from '../../tools/path-tool.ts';
import { goTo, pathScene } from './bench-actions.ts';
import { followed, openPlaces, type Chain } from './open-places.ts';

/** More frames than this are not followed at once. */
const MOST_FRAMES = 900;

/** The place of the path that following would begin from: the last one not after the frame on the bench. */
export function followsFrom({ shape, pts }: PathScene): PathPlace | null {
  return shape?.places.findLast((place) => place.pts <= pts) ?? null;
}

/**
 * Follows what the path follows, from its last place on to its next one, or to the end of the clip. Then the frame comes on which
 * it was lost, for a hand to put it right; whoever went on to another frame meanwhile stays.
 */
export async function followOn(clip: BookClip, marks: FrameMarks, subject: PathSubject): Promise<void> {
  const scene = pathScene(clip, marks, subject);
  const from = followsFrom(scene);
  const index = app.get().indexes[clip.id];
  const frame = from === null || index === undefined ? null : frameWithPts(index, from.pts);
  if (from === null || index === undefined || frame === null) return;
  const next = scene.shape?.places.find(({ pts }) => pts > from.pts);
  const end = next === undefined ? index.frames.length - 1 : (frameWithPts(index, next.pts) ?? frame) - 1;
  const until = Math.min(end, frame + MOST_FRAMES);
  if (until <= frame) return void tellDone(say`The next frame has a place already, or there is none.`);
  const order = { id: clip.id, subject, frame, at: { x: from.x, y: from.y }, until };
  const asked = app.get().bench;
  const found = await runJob(say`Following it`, (jobId) => ask('clip/follow', { jobId, ...order }));
  const chain = chainOf(found, { subject, from, frame }, clip, (each) => index.frames[each]?.pts);
  // Frames that were numbered anew meanwhile are not those that were looked at.
  if (app.get().indexes[clip.id] !== index) return;
  followed.update((all) => ({
    ...all,
    [clip.id]: [...(all[clip.id] ?? []).filter((each) => !isFrom(each, subject, from)), chain],
  }));
  const { bench } = app.get();
  if (bench?.clipId === clip.id && bench.index === asked?.index && bench.tool.name === 'idle')
    goTo(frame + found.places.length + (found.lost === null ? 0 : 1));
}

function chainOf(
  { places, lost }: FollowedThing,
  { subject, from, frame }: { readonly subject: PathSubject; readonly from: PathPlace; readonly frame: number },
  { height }: Pick<BookClip, 'height'>,
  ptsOf: (frame: number) => number | undefined,
): Chain {
  const guess = (at: PicturePoint): number =>
    followedGuess(subject, Math.hypot(at.x - from.x, at.y - from.y), height / PLACING_LINES);
  const lostAt = ptsOf((places.at(-1)?.frame ?? frame) + 1);
  return {
    ...{ subject, from },
    places: places.flatMap(({ frame: on, x, y }) => {
      const pts = ptsOf(on);
      return pts === undefined ? [] : [{ x, y, pts, guess: guess({ x, y }) }];
    }),
    lost: lost === null || lostAt === undefined ? null : { why: lost, pts: lostAt },
  };
}

const isFrom = ({ subject, from }: Chain, of: PathSubject, place: PathPlace): boolean =>
  subject === of && from.pts === place.pts;

/** Puts all of them on the path, in one edit. */
export function acceptFollowed(clip: BookClip, marks: FrameMarks, subject: PathSubject): void {
  const scene = pathScene(clip, marks, subject);
  const { places } = openPlaces(followed.get()[clip.id] ?? [], scene.shape, subject);
  if (places.length > 0) keepMarks(clip.id, withPlaces(scene, places, crypto.randomUUID()));
}

/** Forgets what was followed of one thing. */
export function dropFollowed(clipId: string, subject: PathSubject): void {
  followed.update((all) => ({ ...all, [clipId]: (all[clipId] ?? []).filter((each) => each.subject !== subject) }));
}
