import type { BodyPointId } from '../../model/body-points.ts';
import type { SetUpErrors } from '../camera/set-up-errors.ts';
import type { NamingErrors } from '../readings/naming.ts';

/**
 * How far clicks scatter about the place meant: standard deviation in each of x and y, in pixels of a picture 1080
 * lines high (a picture of another height is scaled).
 */
export interface PlacingErrors {
  /** Per body point, from the coach's own repeat check. */
  readonly known: Readonly<Partial<Record<BodyPointId, number>>>;
  /** Degrees of freedom of each known one, > 0 (core/measure/uncertainty/freedom.ts); not named = Infinity. */
  readonly freedom?: Readonly<Partial<Record<BodyPointId, number>>>;
  /** Of checkpoints, from the coach's own repeat check; those that it does not know are assumed (core/measure/readings/naming.ts). */
  readonly naming?: NamingErrors;
  /** How unlike two days are besides; what `ASSUMED_SET_UP` states when left out. */
  readonly setUp?: SetUpErrors;
  /** For every other point and for the ends, corners and edges of shapes; > 0. */
  readonly assumed: number;
}

/** Before a repeat check exists: 3 px per 1080 lines. Assumed, ours, and readings carry the note `placing-assumed`. */
export const ASSUMED_PLACING: PlacingErrors = { known: {}, assumed: 3 };

/** Lines of the picture that placing errors are stated for. */
export const PLACING_LINES = 1080;

/** A hidden point is guessed: its placing error is taken as this many times larger. Assumed, ours. */
export const HIDDEN_FACTOR = 3;

/**
 * Standard deviation in pixels of a picture `height` lines high, with its degrees of freedom: Infinity where it is
 * assumed. `guess`: of a place that was accepted as it was proposed; it counts where it is larger. `isLearnt`: from the coach's own
 * corrections, and as large as few of them ask for.
 */
export function placingSigma(
  placing: PlacingErrors,
  height: number,
  point: BodyPointId | null,
  hidden: boolean,
  guess = 0,
  isLearnt = false,
): { readonly sigma: number; readonly assumed: boolean; readonly freedom: number } {
  const known = point === null ? undefined : placing.known[point];
  const freedom = point === null || known === undefined ? undefined : placing.freedom?.[point];
  const perLines = known ?? placing.assumed;
  const sigma = (perLines * height * (hidden ? HIDDEN_FACTOR : 1)) / PLACING_LINES;
  if (guess > sigma) return { sigma: guess, assumed: !isLearnt, freedom: Infinity };
  return { sigma, assumed: known === undefined, freedom: freedom ?? Infinity };
}
