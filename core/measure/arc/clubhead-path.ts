import { toSwing } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { PathPlace, PathShape, PicturePoint } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';

/** The clubhead's path of a clip; a clip has at most one. null without it. */
export function clubheadPathOf(clip: Pick<MarkedClip, 'marks'>): PathShape | null {
  for (const { shapes } of clip.marks)
    for (const shape of shapes) if (shape.kind === 'path' && shape.subject === 'clubhead') return shape;
  return null;
}

/** Which part of the path is meant: round impact, or away from the ball after address. */
export type PathPart = 'impact' | 'address';

/** Bounds of each part: the first of the listed checkpoints that is named; without any, the path's own end. */
const FROM: Readonly<Record<PathPart, readonly Checkpoint[]>> = {
  impact: ['lead-arm-level-down', 'top'],
  address: ['address'],
};
const TO: Readonly<Record<PathPart, readonly Checkpoint[]>> = {
  impact: ['through', 'finish'],
  address: ['takeaway', 'lead-arm-level', 'top'],
};

/** The places of one part of a path, in order of time, bounds included. */
export function placesOf(path: PathShape, part: PathPart, { checkpoints }: Pick<MarkedClip, 'checkpoints'>) {
  const bound = (names: readonly Checkpoint[]): number | null =>
    names.map((name) => checkpoints[name]?.pts).find((pts) => pts !== undefined) ?? null;
  const [from, to] = [bound(FROM[part]) ?? -Infinity, bound(TO[part]) ?? Infinity];
  return path.places.filter(({ pts }) => pts >= from && pts <= to);
}

/** The largest error of places that were accepted where they were followed to, pixels; 0 where a hand put all of them. */
export function largestGuess(places: readonly PathPlace[]): number {
  return Math.max(0, ...places.map(({ guess = 0 }) => guess));
}

/** Places as the player has them, straightened and turned upright. */
export function inSwing(
  places: readonly PathPlace[],
  straighten: (at: PicturePoint) => PicturePoint,
  stance: { readonly side: 1 | -1; readonly tilt: number },
): readonly SwingPoint[] {
  return places.map((place) => toSwing(straighten(place), stance));
}
