import { coverageFactor, effectiveFreedom, studentQuantile } from '../measure/uncertainty/freedom.ts';
import type { MeasuredReading } from '../model/reading.ts';
import { ASSUMED_PRIOR } from './scatter-ensemble.ts';
import type { PriorScatter, SeenScatter } from './scatter-ensemble.ts';

/** What several swings of one lesson say of one reading. */
export interface LessonReading {
  readonly readings: readonly MeasuredReading[];
  readonly mean: number;
  /** u of what is the same in all of them: where the camera stood, where the coach takes a joint to lie. */
  readonly common: number;
  /** Of it what another lesson of this player has too, by name: signed, what it makes of the mean. */
  readonly ofPlayer: ReadonlyMap<string, number>;
}

/** Readings of one thing from the swings of one lesson, one or more, all in one unit. */
export function lessonReading(readings: readonly MeasuredReading[]): LessonReading {
  const mean = readings.reduce((sum, { value }) => sum + value, 0) / readings.length;
  // Each swing's marks give it slopes of its own. What one error makes of the mean is the mean of what it makes of each.
  const ofPlayer = new Map<string, number>();
  const ofMarks = copiedMarks(readings);
  let day = 0;
  for (const { shared } of readings) {
    let square = 0;
    for (const { name, by, part } of shared)
      if (by === 'day') square += part ** 2;
      else if (by === 'player') ofPlayer.set(name, (ofPlayer.get(name) ?? 0) + part / readings.length);
    day += Math.sqrt(square) / readings.length;
  }
  return { readings, mean, common: Math.hypot(day, ...ofPlayer.values(), ...ofMarks), ofPlayer };
}

/** What errors of marks make of the mean that two swings or more have alike: marks that each swing was given anew scatter with it. */
function copiedMarks(readings: readonly MeasuredReading[]): readonly number[] {
  const found = new Map<string, { readonly part: number; readonly count: number }>();
  for (const { shared } of readings)
    for (const { name, by, part } of shared) {
      const { part: before, count } = found.get(name) ?? { part: 0, count: 0 };
      if (by === 'marks') found.set(name, { part: before + part / readings.length, count: count + 1 });
    }
  return [...found.values()].flatMap(({ part, count }) => (count > 1 ? [part] : []));
}

export interface Scatter {
  /** Standard deviation from swing to swing: the player's own, and all that is marked anew. */
  readonly s: number;
  readonly freedom: number;
}

/** Pooled over lessons, each about its own mean: n - 1 degrees of freedom each. null where no lesson has two swings. */
export function pooledScatter(lessons: readonly LessonReading[]): Scatter | null {
  const freedom = lessons.reduce((sum, { readings }) => sum + readings.length - 1, 0);
  if (freedom === 0) return null;
  const squares = lessons.reduce(
    (sum, { readings, mean }) => sum + readings.reduce((inner, { value }) => inner + (value - mean) ** 2, 0),
    0,
  );
  return { s: Math.sqrt(squares / freedom), freedom };
}

/**
 * The scatter of few swings, steadied by what is taken to be so beforehand: (d0 s0² + d s²) / (d0 + d) with d0 + d degrees of
 * freedom (Smyth 2004, scatter-ensemble.ts). `assumed`: one standard deviation of the player's own.
 */
export function steadiedScatter(
  lessons: readonly LessonReading[],
  assumed: number,
  prior: PriorScatter = ASSUMED_PRIOR,
): Scatter {
  const seen = pooledScatter(lessons);
  const freedom = prior.freedom + (seen?.freedom ?? 0);
  const expected = prior.player * assumed ** 2 + prior.marks * markedAnew(lessons);
  const squares = prior.freedom * expected + (seen === null ? 0 : seen.freedom * seen.s ** 2);
  return { s: Math.sqrt(squares / freedom), freedom };
}

/** Variance from swing to swing of what each is marked anew by. */
function markedAnew(lessons: readonly LessonReading[]): number {
  const anew = lessons.flatMap(({ readings, common }) => readings.map(({ u }) => Math.max(0, u ** 2 - common ** 2)));
  return anew.reduce((sum, each) => sum + each, 0) / anew.length;
}

/**
 * How the swings of lessons differ, in parts of what is assumed: n - 1 independent numbers of a lesson, each of variance 1 if the
 * assumption holds. Helmert's contrasts: each swing against the mean of those before it.
 */
export function seenScatter(lessons: readonly LessonReading[], assumed: number): SeenScatter {
  const expected = assumed ** 2 + markedAnew(lessons);
  if (expected === 0) return { contrasts: [], own: 0 };
  const contrasts = lessons.flatMap(({ readings }) =>
    readings.slice(1).map(({ value }, before) => {
      const count = before + 1;
      const mean = readings.slice(0, count).reduce((sum, each) => sum + each.value, 0) / count;
      return (value - mean) * Math.sqrt(count / (count + 1) / expected);
    }),
  );
  return { contrasts, own: assumed ** 2 / expected };
}

/** What a lesson's mean is sure to: what all of its swings have in common, and its part of their scatter. */
export function uncertaintyOfMean(
  { readings, common }: LessonReading,
  { s, freedom }: Scatter,
): Pick<MeanDifference, 'u' | 'coverage'> {
  const scattered = s / Math.sqrt(readings.length);
  const sure = effectiveFreedom([
    { u: scattered, freedom },
    { u: common, freedom: Infinity },
  ]);
  return { u: Math.hypot(scattered, common), coverage: coverageFactor(sure) };
}

export interface MeanDifference {
  readonly difference: number;
  readonly u: number;
  readonly coverage: number;
}

/**
 * now - then of the means. u holds what each lesson has in common, less what both have alike, and the pooled scatter of
 * n and m swings, s sqrt(1/n + 1/m); the interval is Student's, with Welch and Satterthwaite's freedom (JCGM 100:2008, G.4).
 * null without a scatter: one swing does not tell how far a player's swings lie apart.
 */
export function differenceOfMeans(
  then: LessonReading,
  now: LessonReading,
  scatter: Scatter | null = pooledScatter([then, now]),
): MeanDifference | null {
  if (scatter === null) return null;
  const parts = 1 / then.readings.length + 1 / now.readings.length;
  return { difference: now.mean - then.mean, ...uncertaintyWith(then, now, scatter, parts) };
}

/** The same u and coverage for other numbers of swings: `parts` is 1/n + 1/m. */
export function uncertaintyWith(
  then: LessonReading,
  now: LessonReading,
  { s, freedom }: Scatter,
  parts: number,
): Pick<MeanDifference, 'u' | 'coverage'> {
  const scattered = s * Math.sqrt(parts);
  const known = Math.sqrt(Math.max(0, then.common ** 2 + now.common ** 2 - 2 * alike(then, now)));
  const sure = effectiveFreedom([
    { u: scattered, freedom },
    { u: known, freedom: Infinity },
  ]);
  return { u: Math.hypot(scattered, known), coverage: coverageFactor(sure) };
}

/** Covariance of two lessons by one coach of one player. */
function alike(then: LessonReading, now: LessonReading): number {
  let sum = 0;
  for (const [name, part] of then.ofPlayer) sum += part * (now.ofPlayer.get(name) ?? 0);
  return sum;
}

/** One in a hundred swings is called odd that is not. */
const ODD = 0.995;
/** With fewer there is no saying which of them is odd. */
const FEWEST_FOR_ODD = 4;

/** Places of swings that lie where 99 % of swings like the lesson's others do not: outside of their prediction interval. */
export function oddSwings(values: readonly number[]): readonly number[] {
  if (values.length < FEWEST_FOR_ODD) return [];
  const count = values.length - 1;
  const reach = studentQuantile(ODD, count - 1) * Math.sqrt(1 + 1 / count);
  return values.flatMap((value, place) => {
    const others = values.filter((_, i) => i !== place);
    const mean = others.reduce((sum, each) => sum + each, 0) / count;
    const s = Math.sqrt(others.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (count - 1));
    return Math.abs(value - mean) > reach * s ? [place] : [];
  });
}
