import { sideOf } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import { grouped } from '../../model/grouped.ts';
import type { PicturePoint } from '../../model/mark.ts';
import type { Correction } from '../../model/proposed-points.ts';
import type { View } from '../../model/words.ts';
import { coverageFactor, studentQuantile } from '../uncertainty/freedom.ts';
import { meanOfLog } from '../uncertainty/log-chi-square.ts';
import { fitTail } from './fit-tail.ts';
import type { TailFit, TailPlace } from './fit-tail.ts';
import { SWING_PLACES, swingPlaceOf } from './swing-places.ts';
import type { SwingPlace } from './swing-places.ts';

/** How far proposals lie off, and from which mean place. */
export interface Learnt {
  /** Standard deviation in each coordinate, as a part of the assumed one; > 0. */
  readonly ratio: number;
  /** Degrees of freedom of `ratio`, with those that what it was drawn toward is worth. */
  readonly freedom: number;
  /**
   * By how much the coach puts it elsewhere as a rule, thousandths of the square in which the model saw the body: x toward
   * the target (face on) or the ball (down the line), y down. 0 where it is not sure.
   */
  readonly offset: PicturePoint;
}

/** What corrections say, of all of the swing or of one place in it. */
interface Known {
  readonly corrections: number;
  readonly lessons: number;
  /** null: too few lessons, and what is known of more stands. */
  readonly learnt: Learnt | null;
}

/** What a coach's corrections say of one body point in one view, all of the swing together. Without it the assumed error stands. */
export interface LearntError extends Known {
  readonly point: BodyPointId;
  readonly view: View;
  /** Of each place in the swing at which it was corrected, in the swing's order. */
  readonly at: readonly (Known & { readonly place: SwingPlace })[];
}

/** From so many lessons on whose corrections count errors are learnt: fewer tell a standard deviation to no better than a third. Ours. */
export const LEAST_LESSONS = 6;
/** From so many on they are learnt whatever was corrected: of one correction a lesson three are left out as the smaller ones. */
export const MOST_LESSONS = 9;
/**
 * What is known of more is worth so many degrees of freedom beside what is learnt of less. So is the assumed error of a point beside
 * its corrections, as it may well be off by half (ours). So is the usual error of its places beside that of one place (as measured:
 * docs/proposals.md).
 */
const WORTH_OF_MORE = 4;
/** An offset is sure where 99 % of Student's t leave out what is known of more: many are looked at, and one in twenty would show by chance. */
const SURE = 0.995;
/** Smaller than this part of the standard deviation an offset is not worth taking out. Ours. */
const LEAST_OFFSET = 0.3;
/** So many of a point's corrections count, the latest: enough for a standard deviation to a twentieth, and quick. Ours. */
const LATEST = 200;
/** The smaller corrections say little: below some size nobody corrects. So many of them only tell from where on the others count. */
const SMALLER_PART = 0.25;

/**
 * The errors of proposed points, per point and view, from where they were proposed and where the coach put them; and per place in
 * the swing, as most of an error is a place that the model always takes so in that posture.
 *
 * What was accepted is no evidence of size: Enter accepts a whole frame, looked at or not. So only corrections count, and they
 * are read as what they are: the errors that were large enough to be corrected (`fitTail`). Degrees of freedom are those of lessons.
 *
 * A place in the swing with few lessons has what all of the point's corrections say. With more, its offset is theirs, or
 * its own in a coordinate in which it surely differs. Its variance is its own, drawn toward what is usual at this point's places:
 * (d s² + d0 s0²) / (d + d0), the moderated variance of G. K. Smyth, Stat. Appl. Genet. Mol. Biol. 3 (2004) 3. That of all
 * is drawn alike toward the assumed one. `all`: the oldest first.
 */
export function learnErrors(all: readonly Correction[]): readonly LearntError[] {
  return [...grouped(all, ({ view, point }) => `${view} ${point}`).values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const whole = fitOf(group, { offset: { x: 0, y: 0 }, from: Infinity });
    return [{ point: first.point, view: first.view, ...knownBy(group, whole, 1), at: placesOf(group, whole) }];
  });
}

function placesOf(group: readonly Correction[], whole: Fit | null): LearntError['at'] {
  const byPlace = grouped(group, ({ checkpoint }) => swingPlaceOf(checkpoint));
  const fits = SWING_PLACES.flatMap((place) => {
    const here = byPlace.get(place) ?? [];
    if (here.length === 0) return [];
    // Where it was never corrected elsewhere the two are one, and it does not count twice.
    const fit = whole === null || byPlace.size === 1 ? whole : fitOf(here, whole);
    return [{ place, here, fit }];
  });
  const usual = byPlace.size === 1 ? 1 : usualVariance(fits.flatMap(({ fit }) => fit ?? []));
  return fits.map(({ place, here, fit }) => ({ place, ...knownBy(here, fit, usual) }));
}

/** Scatter and offset of some corrections by themselves. */
interface Fit {
  /** In each coordinate, about the offset, as a part of the assumed one; > 0. */
  readonly variance: number;
  readonly freedom: number;
  readonly offset: PicturePoint;
  /** Corrections count that are larger than this, assumed standard deviations; >= 0. */
  readonly from: number;
  /** What is taken out is itself known to one part in the number of lessons: so many times the variance. */
  readonly taken: number;
}

/**
 * s0² by Smyth's fit (section 6.2), with d0 given: by the mean of the places' logarithms, as variances that differ by factors are
 * not alike in their mean. The assumed one counts as one place more.
 */
function usualVariance(fits: readonly Fit[]): number {
  const logs = fits.map(({ variance, freedom }) => Math.log(variance) - meanOfLog(freedom));
  const mean = logs.reduce((sum, log) => sum + log, 0) / (logs.length + 1);
  return Math.exp(mean + meanOfLog(WORTH_OF_MORE));
}

function knownBy(group: readonly Correction[], fit: Fit | null, usual: number): Known {
  const of = latest(group);
  return { corrections: of.length, lessons: lessonsIn(of), learnt: fit === null ? null : moderated(fit, usual) };
}

function moderated({ variance, freedom: own, offset, taken }: Fit, usual: number): Learnt {
  const freedom = own + WORTH_OF_MORE;
  const drawn = (own * variance + WORTH_OF_MORE * usual) / freedom;
  return { ratio: Math.sqrt(drawn * taken), freedom, offset };
}

const latest = (group: readonly Correction[]): readonly Correction[] => group.slice(-LATEST);
const lessonsIn = (group: readonly Correction[]): number => new Set(group.map(({ lessonId }) => lessonId)).size;

/**
 * `more`: the offset that stands where no other is sure, and from where on corrections counted there. Who corrects small errors
 * elsewhere lets none pass here that are larger. null: of too few lessons.
 */
function fitOf(all: readonly Correction[], { offset: about, from: most }: Pick<Fit, 'offset' | 'from'>): Fit | null {
  const group = latest(all);
  if (lessonsIn(group) < LEAST_LESSONS) return null;
  const sizes = group.map((each) => shiftIn(each)).toSorted((one, other) => one - other);
  // What lies beyond an order statistic is distributed as beyond a fixed size, so the threshold may come from the same values.
  const from = Math.min(most, sizes[Math.floor(SMALLER_PART * sizes.length)] ?? 0);
  const used = group.filter((each) => shiftIn(each) > from);
  const lessons = lessonsIn(used);
  if (lessons < LEAST_LESSONS) return null;
  // Not one weight for each lesson: where errors are small fewer are corrected, and those few would count for more.
  const places = used.map((each) => placeOf(each, lessons / used.length, about));
  const free = fitTail(places, from, { x: true, y: true });
  const isSure = (axis: 'x' | 'y'): boolean => {
    const off = Math.abs(free.offset[axis]);
    const error = free.offsetU;
    return off > studentQuantile(SURE, lessons - 1) * error && off * free.perOffset > LEAST_OFFSET * free.sd;
  };
  const sure = { x: isSure('x'), y: isSure('y') };
  const fit: TailFit = sure.x && sure.y ? free : fitTail(places, from, sure);
  const offset = { x: about.x + fit.offset.x, y: about.y + fit.offset.y };
  return {
    ...{ variance: fit.sd ** 2, offset, from, freedom: 2 * lessons - Number(sure.x) - Number(sure.y) },
    taken: sure.x || sure.y ? 1 + 1 / lessons : 1,
  };
}

/** How far the coach moved it from where it was shown, in assumed standard deviations. */
function shiftIn({ placed, proposed }: Correction): number {
  return Math.hypot(placed.x - proposed.x, placed.y - proposed.y) / proposed.assumed;
}

/** In assumed standard deviations from where the offset `about` would show it. */
function placeOf({ placed, proposed, handedness }: Correction, weight: number, about: PicturePoint): TailPlace {
  const { model, assumed, size } = proposed;
  const side = sideOf(handedness);
  const perOffset = size / (1000 * assumed);
  const from = (place: PicturePoint): PicturePoint => ({
    x: (side * (place.x - model.x)) / assumed - about.x * perOffset,
    y: (place.y - model.y) / assumed - about.y * perOffset,
  });
  return { at: from(placed), shown: from(proposed), perOffset, weight };
}

/** What a proposed point is shown and told with. */
export interface ToldError {
  /** Standard deviation as a part of the assumed one; > 0. */
  readonly ratio: number;
  readonly offset: PicturePoint;
  /** From so many corrections. */
  readonly corrections: number;
}

/** What stands for a point at a place in the swing; null: what is assumed. */
export function toldAt(error: LearntError, place: SwingPlace): ToldError | null {
  const own = error.at.find((each) => each.place === place);
  if (own === undefined || own.learnt === null) return toldByAll(error, own?.lessons ?? 0);
  return { ratio: ratioToTell(own.learnt), offset: own.learnt.offset, corrections: own.corrections };
}

/**
 * The same where a place in the swing tells too little itself: what all corrections say. For a place at which there are none that is
 * worth no more than beside a place's own, and a t of so many degrees of freedom widens it; each of its `lessons` adds two.
 */
export function toldByAll({ learnt, corrections }: LearntError, lessons = 0): ToldError | null {
  if (learnt === null) return null;
  const { ratio, offset, freedom } = learnt;
  const here = Math.min(freedom, WORTH_OF_MORE + 2 * lessons);
  return { ratio: ratioToTell({ ratio, freedom: here }), offset, corrections };
}

/**
 * The standard deviation that a point accepted where it stands is told with, as a part of the assumed one: the learnt one, larger
 * by what its few degrees of freedom ask of a 95 % interval.
 */
export function ratioToTell({ ratio, freedom }: Pick<Learnt, 'ratio' | 'freedom'>): number {
  return (ratio * coverageFactor(freedom)) / coverageFactor(Infinity);
}
