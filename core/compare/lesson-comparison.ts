import { toleranceOf } from '../measure/goals/goals.ts';
import type { Goals } from '../measure/goals/goals.ts';
import { coverageFactor, effectiveFreedom } from '../measure/uncertainty/freedom.ts';
import { smallestShown } from '../measure/uncertainty/levels.ts';
import { grouped } from '../model/grouped.ts';
import type { MeasuredReading, ReadingKey } from '../model/reading.ts';
import { scatterKind } from './player-scatter.ts';
import { ASSUMED_PRIOR, priorOf, WORTH_OF_ASSUMED } from './scatter-ensemble.ts';
import type { PriorScatter } from './scatter-ensemble.ts';
import {
  seenScatter,
  differenceOfMeans,
  lessonReading,
  oddSwings,
  steadiedScatter,
  uncertaintyOfMean,
  uncertaintyWith,
} from './mean-of-swings.ts';
import type { LessonReading, Scatter } from './mean-of-swings.ts';
import { isOnTrial } from './verdicts.ts';
import type { Unjudged } from './verdicts.ts';

/** One reading from the swings of one lesson, all in one unit, that of the open swing first. */
export interface Lesson {
  readonly readings: readonly [MeasuredReading, ...MeasuredReading[]];
  /** What the swings are called, in the same order. */
  readonly labels: readonly string[];
}

export interface Judging {
  readonly goals: Goals;
  readonly pins: readonly ReadingKey[];
  /** One standard deviation of the player's own swings, in the readings' unit. */
  readonly scatter: number;
}

/** Swings of a lesson that tell enough for little more to be gained by another. */
const ENOUGH = 3;

/** One reading of two lessons. */
export interface LessonPair {
  readonly then: Lesson;
  readonly now: Lesson;
  readonly judging: Judging;
}

/**
 * Two lessons by what their swings say, reading by reading, in the order given: the difference of the means, with the scatter of
 * the swings. Readings of the same swings whose scatter is assumed by one number say together how far that holds of this player.
 * With one swing each the scatter is the assumed one.
 */
export function compareLessons(pairs: readonly LessonPair[]): readonly Unjudged[] {
  const read = pairs.map((pair) => ({
    ...pair,
    ...{ before: lessonReading(pair.then.readings), after: lessonReading(pair.now.readings) },
    together: sameSwings(pair),
  }));
  const scatterIn = ({ before, after, judging }: (typeof read)[number]) =>
    seenScatter([before, after], judging.scatter);
  const priors = new Map(
    [...grouped(read, ({ together }) => together)].map(([key, each]) => [key, priorOf(each.map(scatterIn))]),
  );
  return read.map((pair) => comparePair(pair, priors.get(pair.together) ?? ASSUMED_PRIOR));
}

function sameSwings({ then, now }: LessonPair): string {
  const [reading] = now.readings;
  const kind = scatterKind(reading);
  // Nothing is told of what a day does to all of its swings: how they differ says too little of the means, so it stays alone.
  const isAlone = kind !== 'seconds' && reading.shared.length === 0;
  const { id, aspect, view, checkpoint } = reading;
  return JSON.stringify([kind, isAlone ? [id, aspect, view, checkpoint] : [], then.labels, now.labels]);
}

/** A pair with what its swings say together. */
interface ReadPair extends LessonPair {
  readonly before: LessonReading;
  readonly after: LessonReading;
}

function comparePair({ then, now, judging, before, after }: ReadPair, prior: PriorScatter): Unjudged {
  const scatter = steadiedScatter([before, after], judging.scatter, prior);
  const found = differenceOfMeans(before, after, scatter);
  if (found === null) throw new Error('a scatter was given');
  const isSingle = then.readings.length === 1 && now.readings.length === 1;
  const coverage = isSingle ? coverageOfSingles(then, now, found.u, judging.scatter) : found.coverage;
  const sure = Math.max(scatter.freedom, WORTH_OF_ASSUMED + 2 * (ENOUGH - 1));
  const three = uncertaintyWith(before, after, { ...scatter, freedom: sure }, 2 / ENOUGH);
  const isEnough = Math.min(then.readings.length, now.readings.length) >= ENOUGH;
  return {
    ...unjudged(meanOf(then, before, scatter), meanOf(now, after, scatter), found.u, coverage, judging),
    showsWithThree: isEnough ? null : smallestShown(three.u, three.coverage),
  };
}

/** One swing each: only the assumed scatter is unsure of itself, and errors known from few repeats stay as unsure as they are. */
function coverageOfSingles(then: Lesson, now: Lesson, u: number, scatter: number): number {
  const assumed = Math.SQRT2 * scatter;
  const sure = effectiveFreedom([
    { u: assumed, freedom: WORTH_OF_ASSUMED },
    { u: Math.sqrt(Math.max(0, u ** 2 - assumed ** 2)), freedom: Infinity },
  ]);
  return Math.max(coverageFactor(sure), then.readings[0].coverage, now.readings[0].coverage);
}

/** Two swings as they are, of which nothing is said but what they are: no scatter of the player is in u. */
export function compareSingles(
  then: MeasuredReading,
  now: MeasuredReading,
  shared: number,
  judging: Omit<Judging, 'scatter'>,
): Unjudged {
  const u = Math.sqrt(Math.max(0, then.u ** 2 + now.u ** 2 - 2 * shared));
  // The larger of two factors covers both: a part that is known from few repeats stays as unsure as it is.
  return { ...unjudged(then, now, u, Math.max(then.coverage, now.coverage), judging), showsWithThree: null };
}

function unjudged(
  then: MeasuredReading,
  now: MeasuredReading,
  u: number,
  coverage: number,
  { goals, pins }: Omit<Judging, 'scatter'>,
): Omit<Unjudged, 'showsWithThree'> {
  const { id, aspect, view, checkpoint, unit } = now;
  return {
    ...{ id, aspect, view, checkpoint, unit, then, now, u, coverage },
    difference: now.value - then.value,
    isOnTrial: isOnTrial(now, pins, goals),
    tolerance: toleranceOf(goals, id, aspect, unit),
    shows: smallestShown(u, coverage),
  };
}

/** The mean as a reading of its own; of one swing the reading itself. */
function meanOf({ readings, labels }: Lesson, lesson: LessonReading, scatter: Scatter): MeasuredReading {
  const [first, ...others] = readings;
  if (others.length === 0) return first;
  const values = readings.map(({ value }) => value);
  const { u, coverage } = uncertaintyOfMean(lesson, scatter);
  const { mean } = lesson;
  return {
    ...first,
    ...{ value: mean, u, coverage, interval: [mean - coverage * u, mean + coverage * u] },
    ...{ budget: [], shared: [], method: 'first-order' },
    notes: [...new Set(readings.flatMap(({ notes }) => notes))],
    swings: { values, odd: oddSwings(values).map((place) => labels[place] ?? '') },
  };
}
