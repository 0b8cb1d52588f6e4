import { studentPart } from '../measure/uncertainty/freedom.ts';
import { excessOfLog, freedomOfLog, meanOfLog, varianceOfLog } from '../measure/uncertainty/log-chi-square.ts';

/**
 * Few swings tell the scatter of one reading badly, but many readings of the same swings tell together how far this player is
 * from what is assumed of all. Variances are moderated (G. K. Smyth, Stat. Appl. Genet. Mol. Biol. 3 (2004) 3): each reading's
 * own is drawn toward one that the readings have in common, as strongly as they agree. Smyth takes readings to be independent.
 * Readings of one swing are not, so it is counted here how many they are worth, and each part counts by its own variance.
 */

/** What a reading's squared scatter is taken to be before its own swings are looked at, in parts of the assumed one. */
export interface PriorScatter {
  /** The player's own part is so many times the assumed one. */
  readonly player: number;
  /** And what each swing is marked anew by. */
  readonly marks: number;
  /** How many degrees of freedom that is worth beside what its swings show. */
  readonly freedom: number;
}

/**
 * How many degrees of freedom the assumed scatter of a player is worth where nothing else is known. Two swings may lie together
 * by chance, and a t of one degree of freedom never says anything. Ours.
 */
export const WORTH_OF_ASSUMED = 8;
export const ASSUMED_PRIOR: PriorScatter = { player: 1, marks: 1, freedom: WORTH_OF_ASSUMED };

/**
 * How far the log of a squared scatter may be from the assumed one: a half for the player, in whom all readings are alike, and a
 * half for the reading. Nothing tells which it is; ours.
 */
const HALF = varianceOfLog(WORTH_OF_ASSUMED) / 2;

/** One reading's swings: so many independent numbers as they have degrees of freedom, each of variance 1 as assumed. */
export type Contrasts = readonly number[];

export interface SeenScatter {
  readonly contrasts: Contrasts;
  /** What part of the assumed variance is the player's own, 0 to 1. */
  readonly own: number;
}

/**
 * The prior of readings of the same swings whose scatter is assumed by the same number; contrasts of all in the same order. Either
 * the player scatters otherwise than assumed, or all does, his marks too: whichever leaves the readings more alike. What is
 * assumed comes back where readings are few, or so much alike that they say no more than one.
 */
export function priorOf(readings: readonly SeenScatter[]): PriorScatter {
  const moving = readings.filter(({ contrasts }) => doesMove(contrasts));
  const freedom = moving[0]?.contrasts.length ?? 0;
  const count = effectiveCount(moving.map(({ contrasts }) => contrasts));
  if (freedom === 0 || count <= 1) return ASSUMED_PRIOR;
  const squares = moving.map(({ contrasts }) => squareOf(contrasts));
  const { mean, spread: together } = momentsOfLog(squares, freedom, count);
  const player = timesOfPlayer(moving, mean);
  const apart = momentsOfLog(
    squares.map((square, i) => square / timesInAll(moving[i]?.own ?? 1, player)),
    freedom,
    count,
  ).spread;
  const spread = Math.min(together, apart);
  const others = count - 1;
  const found = varianceOfLog(freedom) + Math.max(0, spread);
  const between = atLeastNothing(spread, found * Math.sqrt((2 + excessOfLog(freedom)) / others), HALF);
  const common = commonPart(mean, found / others);
  // All that the log may be off by, what is common and the reading's own: variances add.
  const worth = freedomOfLog(common.variance + between);
  const usual = Math.exp(meanOfLog(worth));
  return apart < together
    ? { player: usual * timesOfPlayer(moving, common.mean), marks: usual, freedom: worth }
    : { player: usual * Math.exp(common.mean), marks: usual * Math.exp(common.mean), freedom: worth };
}

const timesInAll = (own: number, player: number): number => 1 - own + own * player;

/** How many times as large the player's part is if the log of all is `mean` on the average; found by halving, 0 at the least. */
function timesOfPlayer(readings: readonly SeenScatter[], mean: number): number {
  const meanWith = (player: number): number =>
    readings.reduce((sum, { own }) => sum + Math.log(timesInAll(own, player)), 0) / readings.length;
  let [low, high] = [LEAST, MOST];
  if (!(meanWith(low) < mean)) return low;
  for (let step = 0; step < 60; step += 1) {
    const middle = Math.sqrt(low * high);
    if (meanWith(middle) < mean) low = middle;
    else high = middle;
  }
  return low;
}

/** A player's variance is never so many times the assumed one. */
const MOST = 1e6;
/** A clock's steps may make all times alike: that is no scatter of a player. */
const LEAST = 1e-6;
const squareOf = (contrasts: Contrasts): number =>
  contrasts.reduce((sum, each) => sum + each ** 2, 0) / contrasts.length;
const doesMove = (contrasts: Contrasts): boolean => contrasts.length > 0 && squareOf(contrasts) > LEAST;

/**
 * How many independent readings these are worth, 1 to their number: 1 / the mean of their squared correlations. Let z(k) and z(l)
 * be the contrasts of swings k and l over all readings, each with covariance S. On the average (z(k)·z(l))² is tr S², and
 * |z(k)|²|z(l)|² is (tr S)². Their ratio is that mean. Logs of squares correlate by the squared correlation at most. A mean of
 * P products is a chi-square of P, and 1 / count is its expectation: P / (P - 2) of what is found, nothing for P < 3.
 */
export function effectiveCount(readings: readonly Contrasts[]): number {
  const freedom = readings[0]?.length ?? 0;
  const pairs = (freedom * (freedom - 1)) / 2;
  if (pairs < 3) return 1;
  const product = (k: number, l: number): number =>
    readings.reduce((sum, each) => sum + (each[k] ?? 0) * (each[l] ?? 0), 0);
  let [common, all] = [0, 0];
  for (let k = 0; k < freedom; k += 1)
    for (let l = 0; l < k; l += 1) {
      common += product(k, l) ** 2;
      all += product(k, k) * product(l, l);
    }
  return 1 / Math.min(1, Math.max(1 / readings.length, ((common / all) * pairs) / (pairs - 2)));
}

/**
 * Smyth's fit by moments, section 6.2: mean of the logs of the squares' expectations, and how far these differ besides what so
 * few degrees of freedom do, which may come out below 0. `count`: how many independent squares they are worth, > 1.
 */
export function momentsOfLog(
  squares: readonly number[],
  freedom: number,
  count = squares.length,
): { readonly mean: number; readonly spread: number } {
  const logs = squares.map((square) => Math.log(square) - meanOfLog(freedom));
  const mean = logs.reduce((sum, each) => sum + each, 0) / logs.length;
  const variance = logs.reduce((sum, each) => sum + (each - mean) ** 2, 0) / logs.length;
  // Values that go together lie nearer to their own mean.
  return { mean, spread: variance / (1 - 1 / count) - varianceOfLog(freedom) };
}

/**
 * What all logs have in common, from what readings say, known to `variance`, and from what is assumed. Where the two contradict
 * each other the assumption is worth less: its variance becomes as much as explains that.
 */
function commonPart(found: number, variance: number): { readonly mean: number; readonly variance: number } {
  const assumed = -meanOfLog(WORTH_OF_ASSUMED);
  const unsure = Math.max(HALF, (found - assumed) ** 2 - variance);
  const [own, stated] = [1 / variance, 1 / unsure];
  return { mean: (own * found + stated * assumed) / (own + stated), variance: 1 / (own + stated) };
}

/** Freedom at which Student's distribution is the normal one. */
const NORMAL_FREEDOM = 1e6;
/** From here on the quotient of density and tail is better told by its series. */
const FAR = 6;

/**
 * What is expected of a number that is never below 0, is `usual` on the average and was found to be `found`, known to `u` > 0:
 * the mean of a normal distribution cut off at 0, tilted by exp(-x / usual). Of all such priors that one assumes least.
 */
export function atLeastNothing(found: number, u: number, usual: number): number {
  const middle = found / u - u / usual;
  if (middle < -FAR) return u * (1 / -middle - 2 / (-middle) ** 3 + 10 / (-middle) ** 5);
  const density = Math.exp(-(middle ** 2) / 2) / Math.sqrt(2 * Math.PI);
  return u * (middle + density / studentPart(middle, NORMAL_FREEDOM));
}
