import { BODY_POINTS, BODY_POINT_INFO } from '../../model/body-points.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { FrameMarks } from '../../model/mark.ts';
import { READING_IDS } from '../../model/reading.ts';
import type { NamingChoice, RepeatChoice, RepeatShowing } from '../../model/repeat-check.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { CHECKPOINTS, TIMED_CHECKPOINTS } from '../../model/words.ts';
import type { Checkpoint, View } from '../../model/words.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { viewsOf } from '../catalogue/where-read.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { seeded } from '../uncertainty/seeded.ts';

/** A check of so many frames, points and rounds takes a few minutes and says enough: 12 placings a point. Ours. */
export const SUGGESTED_FRAMES = 6;
export const SUGGESTED_POINTS = 8;
export const SUGGESTED_ROUNDS = 2;

export interface ClipToCheck extends MarkedClip {
  readonly id: string;
}

/** A frame that could be shown again: every point on it that a hand placed in sight. */
export interface RepeatCandidate extends RepeatChoice {
  readonly view: View;
  /** The first of its names in the order of a swing, or null. */
  readonly checkpoint: Checkpoint | null;
}

/** The checkpoints that most readings are made at come first. */
const FIRST: readonly Checkpoint[] = ['address', 'top', 'impact'];
const INQUIRED: readonly Checkpoint[] = [...FIRST, ...CHECKPOINTS.filter((name) => !FIRST.includes(name))];

/**
 * Marked frames with a body point in sight that a hand placed: address, top and impact of every clip first, then other named
 * ones, then the rest. A hidden point is guessed, and one that stands where it was proposed is not the coach's: the scatter of
 * neither is a placing error. The first `SUGGESTED_FRAMES` make a good check.
 */
export function repeatCandidates(clips: readonly ClipToCheck[]): readonly RepeatCandidate[] {
  const candidates = clips.flatMap((clip) =>
    clip.marks.flatMap((marks): readonly RepeatCandidate[] => {
      const points = pointsInSight(marks, clip.view);
      if (points.length === 0) return [];
      const checkpoint = CHECKPOINTS.find((name) => clip.checkpoints[name]?.index === marks.frame.index) ?? null;
      return [{ clipId: clip.id, frame: marks.frame, points, view: clip.view, checkpoint }];
    }),
  );
  const rank = ({ checkpoint }: RepeatCandidate) =>
    checkpoint === null ? INQUIRED.length : INQUIRED.indexOf(checkpoint);
  return candidates.toSorted((a, b) => rank(a) - rank(b));
}

function pointsInSight({ points }: FrameMarks, view: View): readonly BodyPointId[] {
  return BODY_POINTS.filter((point) => {
    const placed = points[point];
    if (placed === undefined || placed.hidden || placed.guess !== undefined) return false;
    return BODY_POINT_INFO[point].views.includes(view);
  });
}

/**
 * At most `most` of a frame's points, in the order of a guided run: those without an own placing error before those
 * with one, so that a second check goes on where the first ended; of equals those that more readings of the view use.
 */
export function pointsToRepeat(
  { points, view }: Pick<RepeatCandidate, 'points' | 'view'>,
  known: PlacingErrors['known'],
  most: number,
): readonly BodyPointId[] {
  const order = points.toSorted((a, b) => {
    const unknownFirst = Number(known[a] !== undefined) - Number(known[b] !== undefined);
    return unknownFirst === 0 ? uses(b, view) - uses(a, view) : unknownFirst;
  });
  const chosen = order.slice(0, most);
  return points.filter((point) => chosen.includes(point));
}

/** How many readings of the view are made from the point. */
function uses(point: BodyPointId, view: View): number {
  return READING_IDS.filter((id) => {
    const entry = CATALOGUE[id];
    if (!('points' in entry)) return false;
    const of: readonly BodyPointId[] = [...entry.points.here, ...entry.points.address];
    return viewsOf(id).includes(view) && of.includes(point);
  }).length;
}

/** A named frame that could be named again. */
export interface NamingCandidate extends NamingChoice {
  readonly view: View;
}

/** The named frames whose instants are read, clip by clip in the order of a swing. */
export function namingCandidates(clips: readonly ClipToCheck[]): readonly NamingCandidate[] {
  return clips.flatMap(({ id, view, checkpoints }) =>
    TIMED_CHECKPOINTS.flatMap((checkpoint) => {
      const named = checkpoints[checkpoint];
      if (named === undefined) return [];
      return [{ clipId: id, view, checkpoint, frame: { index: named.index, pts: named.pts } }];
    }),
  );
}

/** How far from the frame that was named a showing begins, seconds of the swing: in sight of it, and never on it. Ours. */
const BEGINS = { least: 0.06, most: 0.18 };
/** So many frames at least, whatever the clip's rate. */
const BEGINS_FRAMES = 3;

/**
 * The frame that a showing begins at: before or after the named one, by chance, so that neither where it begins nor how far
 * one has to go tells where it was. `frameSeconds` > 0 is what a frame lasts; both given draws lie in 0..1.
 */
export function namingStart(
  named: number,
  { frameCount, frameSeconds }: { readonly frameCount: number; readonly frameSeconds: number },
  [side, far]: readonly [number, number],
): number {
  const seconds = BEGINS.least + far * (BEGINS.most - BEGINS.least);
  const by = Math.max(BEGINS_FRAMES, Math.round(seconds / frameSeconds));
  const start = side < 0.5 ? named - by : named + by;
  return Math.min(frameCount - 1, Math.max(0, start));
}

/**
 * Every chosen frame once in each round, each round shuffled by itself: nobody remembers a frame from the one just
 * before, and all others lie between two showings of one as a rule. No frame follows itself unless it is the only one.
 */
export function shuffledShowings(choices: number, rounds: number, seed: number): readonly RepeatShowing[] {
  const numbers = seeded(seed);
  const showings: RepeatShowing[] = [];
  for (let round = 1; round <= rounds; round += 1) {
    const order = Array.from({ length: choices }, (_, choice) => ({ choice, by: numbers.uniform() }))
      .sort((a, b) => a.by - b.by)
      .map(({ choice }) => choice);
    if (order.length > 1 && order[0] === showings.at(-1)?.choice) order.push(...order.splice(0, 1));
    for (const choice of order) showings.push({ choice, round });
  }
  return showings;
}
