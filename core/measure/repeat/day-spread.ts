import { say } from '../../model/say.ts';
import { BODY_POINTS } from '../../model/body-points.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { RepeatCheck, RepeatFrame } from '../../model/repeat-check.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { pixelsPerMetre } from '../camera/picture-scale.ts';
import { ASSUMED_SET_UP } from '../camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { namingErrorsOf } from './naming-spread.ts';
import { placingErrorsOf } from './placing-spread.ts';
import { meanOf } from './within-subject.ts';

/** What a coach takes for a joint moves from day to day by more than a click: the same frame placed again on another day tells it. */
export interface DaySpread {
  /** Standard deviation in each of x and y, metres at the player, clicks left out; >= 0. */
  readonly metres: number;
  /** Degrees of freedom, >= 1. */
  readonly freedom: number;
}

/** What has its place on the thing itself, which everybody sees: no opinion of it changes. */
const SEEN: ReadonlySet<BodyPointId> = new Set(
  BODY_POINTS.filter((point) => /(heel|toe|ball|grip|clubhead)/.test(point)),
);

/**
 * From frames that stand in checks of two days or more. Of each check the mean of its own placings counts, without the mark that
 * was there before; the variance of these means about theirs, less what clicks leave in a mean, is that of the days (one-way
 * analysis of variance). null where no joint was placed on two days.
 */
export function daySpread(checks: readonly RepeatCheck[]): DaySpread | null {
  const frames = checks.flatMap(({ at, frames: all }) => all.map((frame) => ({ day: at.slice(0, 10), frame })));
  const places = new Map<string, Map<string, (readonly number[])[]>>();
  for (const { day, frame } of frames)
    for (const point of BODY_POINTS.filter((each) => !SEEN.has(each)))
      for (const axis of ['x', 'y'] as const) {
        const own = (frame.placings[point] ?? []).slice(1).map((place) => place[axis] / perMetre(frame));
        if (own.length === 0) continue;
        const name = `${frame.clipId} ${String(frame.frame.index)} ${point} ${axis}`;
        const days = places.get(name) ?? new Map<string, (readonly number[])[]>();
        days.set(day, [...(days.get(day) ?? []), own]);
        places.set(name, days);
      }
  const repeated = [...places.values()].map((days) => [...days.values()].map((all) => all.flat()));
  const several = repeated.filter((days) => days.length > 1);
  const freedom = several.reduce((sum, days) => sum + days.length - 1, 0);
  if (freedom === 0) return null;
  const between = several.reduce((sum, days) => sum + squaresOf(days.map(meanOf)), 0) / freedom;
  return { metres: Math.sqrt(Math.max(0, between - clicksInMeans(several))), freedom };
}

/** The part of a mean's variance that clicks leave in it: their own variance, over how many there are. */
function clicksInMeans(several: readonly (readonly (readonly number[])[])[]): number {
  const all = several.flat();
  const freedom = all.reduce((sum, own) => sum + own.length - 1, 0);
  if (freedom === 0) return 0;
  const variance = all.reduce((sum, own) => sum + squaresOf(own), 0) / freedom;
  return (variance * all.reduce((sum, own) => sum + 1 / own.length, 0)) / all.length;
}

function squaresOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}

function perMetre({ view, width, height, frame, shapes }: RepeatFrame): number {
  const clip: MarkedClip = {
    ...{ view, width, height, timebase: { num: 1, den: 1 }, nominalRate: null, captureRate: null, checkpoints: {} },
    marks: [{ frame, points: {}, shapes }],
  };
  return pixelsPerMetre(clip, ASSUMED_PLACING);
}

/** What the assumed spread of days is worth beside a measured one, in degrees of freedom. Ours. */
const WORTH_OF_ASSUMED = 8;

/** The placing errors of all checks; of days where they tell them, steadied by what is assumed. */
export function placingErrorsOfChecks(checks: readonly RepeatCheck[]): PlacingErrors {
  const naming = namingErrorsOf(checks.flatMap(({ namings }) => namings));
  const placed = placingErrorsOf(checks.flatMap(({ frames }) => frames));
  const errors = naming === null ? placed : { ...placed, naming };
  const days = daySpread(checks);
  if (days === null) return errors;
  const { definition } = ASSUMED_SET_UP;
  const squares = WORTH_OF_ASSUMED * definition.anew ** 2 + days.freedom * days.metres ** 2;
  const anew = Math.sqrt(squares / (WORTH_OF_ASSUMED + days.freedom));
  return { ...errors, setUp: { ...ASSUMED_SET_UP, definition: { ...definition, anew } } };
}

/** What the checks of several days say, for the coach; null while they say nothing, and then what would is said elsewhere. */
export function daysInWords(checks: readonly RepeatCheck[]): string {
  const days = daySpread(checks);
  if (days === null)
    return say`Check the same frames again on another day, a week later, say: that tells how far you take a joint to lie elsewhere from day to day. Until then 10 mm are assumed.`;
  const millimetres = Math.round(1000 * days.metres);
  return say`From day to day you take a joint to lie ${String(millimetres)} mm elsewhere, besides your clicks (one standard deviation, ${String(days.freedom)} degrees of freedom). Readings count with it, steadied by the assumed 10 mm.`;
}
