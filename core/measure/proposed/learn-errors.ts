import { sideOf } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import { grouped } from '../../model/grouped.ts';
import type { PicturePoint } from '../../model/mark.ts';
import type { Correction } from '../../model/proposed-points.ts';
import type { View } from '../../model/words.ts';
import { coverageFactor, studentQuantile } from '../uncertainty/freedom.ts';
import { fitTail } from './fit-tail.ts';
import type { TailFit, TailPlace } from './fit-tail.ts';

/** What a coach's corrections say of one body point in one view. */
export interface LearntError {
  readonly point: BodyPointId;
  readonly view: View;
  readonly corrections: number;
  readonly lessons: number;
  /** How far proposals lie off, and from which mean place; null: too few lessons, and the assumed error stands. */
  readonly learnt: {
    /** Standard deviation in each coordinate, as a part of the assumed one; > 0. */
    readonly ratio: number;
    /** Degrees of freedom of `ratio`, with those that the assumed one is worth. */
    readonly freedom: number;
    /**
     * By how much the coach puts it elsewhere as a rule, thousandths of the square in which the model saw the body: x toward
     * the target (face on) or the ball (down the line), y down. 0 where it is not sure.
     */
    readonly offset: PicturePoint;
  } | null;
}

/** From so many lessons on errors are learnt: fewer tell a standard deviation to no better than a third. Ours. */
export const LEAST_LESSONS = 6;
/** What the assumed error is worth beside the learnt one, in degrees of freedom: it may well be off by half. Ours. */
const WORTH_OF_ASSUMED = 4;
/** An offset is sure where 99 % of Student's t leave out zero: some sixty of them are looked at, and one in twenty would show by chance. */
const SURE = 0.995;
/** Smaller than this part of the standard deviation an offset is not worth taking out. Ours. */
const LEAST_OFFSET = 0.3;
/** So many of a point's corrections count, the latest: enough for a standard deviation to a twentieth, and quick. Ours. */
const LATEST = 200;
/** The smaller corrections say little: below some size nobody corrects. So many of them only tell from where on the others count. */
const SMALLER_PART = 0.25;

/**
 * The errors of proposed points, per point and view, from where they were proposed and where the coach put them.
 *
 * What was accepted is no evidence of size: Enter accepts a whole frame, looked at or not. So only corrections count, and they
 * are read as what they are: the errors that were large enough to be corrected (`fitTail`). Degrees of freedom are those of lessons.
 * `all`: the oldest first.
 */
export function learnErrors(all: readonly Correction[]): readonly LearntError[] {
  return [...grouped(all, ({ view, point }) => `${view} ${point}`).values()].flatMap((whole) => {
    const group = whole.slice(-LATEST);
    const [first] = group;
    if (first === undefined) return [];
    const { point, view } = first;
    const lessons = lessonsIn(group);
    return [{ point, view, corrections: group.length, lessons, learnt: learnOne(group) }];
  });
}

const lessonsIn = (group: readonly Correction[]): number => new Set(group.map(({ lessonId }) => lessonId)).size;

function learnOne(group: readonly Correction[]): LearntError['learnt'] {
  if (lessonsIn(group) < LEAST_LESSONS) return null;
  const sizes = group.map((each) => shiftIn(each)).toSorted((one, other) => one - other);
  // What lies beyond an order statistic is distributed as beyond a fixed size, so the threshold may come from the same values.
  const from = sizes[Math.floor(SMALLER_PART * sizes.length)] ?? 0;
  const used = group.filter((each) => shiftIn(each) > from);
  const lessons = lessonsIn(used);
  if (lessons < LEAST_LESSONS) return null;
  // Not one weight for each lesson: where errors are small fewer are corrected, and those few would count for more.
  const places = used.map((each) => placeOf(each, lessons / used.length));
  const free = fitTail(places, from, { x: true, y: true });
  const isSure = (axis: 'x' | 'y'): boolean => {
    const off = Math.abs(free.offset[axis]);
    const error = free.offsetU;
    return off > studentQuantile(SURE, lessons - 1) * error && off * free.perOffset > LEAST_OFFSET * free.sd;
  };
  const sure = { x: isSure('x'), y: isSure('y') };
  const fit: TailFit = sure.x && sure.y ? free : fitTail(places, from, sure);
  const own = 2 * lessons - Number(sure.x) - Number(sure.y);
  const freedom = own + WORTH_OF_ASSUMED;
  const variance = (own * fit.sd ** 2 + WORTH_OF_ASSUMED) / freedom;
  // What is taken out is itself known to one part in the number of lessons.
  const taken = sure.x || sure.y ? 1 + 1 / lessons : 1;
  return { ratio: Math.sqrt(variance * taken), freedom, offset: fit.offset };
}

/** How far the coach moved it from where it was shown, in assumed standard deviations. */
function shiftIn({ placed, proposed }: Correction): number {
  return Math.hypot(placed.x - proposed.x, placed.y - proposed.y) / proposed.assumed;
}

function placeOf({ placed, proposed, handedness }: Correction, weight: number): TailPlace {
  const { model, assumed, size } = proposed;
  const side = sideOf(handedness);
  const from = (place: PicturePoint): PicturePoint => ({
    x: (side * (place.x - model.x)) / assumed,
    y: (place.y - model.y) / assumed,
  });
  return { at: from(placed), shown: from(proposed), perOffset: size / (1000 * assumed), weight };
}

/**
 * The standard deviation that a point accepted where it stands is told with, as a part of the assumed one: the learnt one, larger
 * by what its few degrees of freedom ask of a 95 % interval.
 */
export function ratioToTell({ ratio, freedom }: NonNullable<LearntError['learnt']>): number {
  return (ratio * coverageFactor(freedom)) / coverageFactor(Infinity);
}
