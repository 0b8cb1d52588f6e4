import { grouped } from '../../model/grouped.ts';
import type { PicturePoint } from '../../model/mark.ts';

/** One correction, in standard deviations as assumed, from where the model saw the point. */
export interface TailPlace {
  /** Where the coach put it. */
  readonly at: PicturePoint;
  /** Where it was shown: corrections are those that lie far enough from here. */
  readonly shown: PicturePoint;
  /** How much one unit of offset moves it. */
  readonly perOffset: number;
  /** What it counts, > 0; the weights of one lesson add up to 1. */
  readonly weight: number;
}

export interface TailFit {
  /** Standard deviation in each coordinate, about the offset. */
  readonly sd: number;
  readonly offset: PicturePoint;
  /** Standard uncertainty of each coordinate of the offset. */
  readonly offsetU: number;
  /** How much one unit of offset moves a place, as a root mean square. */
  readonly perOffset: number;
}

/** Steps of the estimate at most, and the part of the standard deviation at which it stands. */
const STEPS = 80;
const SETTLED = 1e-4;
/**
 * Beyond this many variances (chi-square of two coordinates, so one in a thousand) a place counts as if it lay there: one wild drag. With
 * one in twenty a model whose errors have longer tails than normal is held up to 2 in a hundred too seldom (decision 63).
 */
const FAR = 14;
/** Of what was never corrected no more is counted than so many times what was: beyond, the tail says too little. */
const MOST_UNSEEN = 20;

/** Places in a disc of radius 1 and the part of its area that each stands for: Gauss and Legendre along, evenly round. */
const DISC = discPlaces(
  [0.069431844202974, 0.330009478207572, 0.669990521792428, 0.930568155797026],
  [0.173927422568727, 0.326072577431273, 0.326072577431273, 0.173927422568727],
  16,
);

function discPlaces(along: readonly number[], weights: readonly number[], round: number) {
  return along.flatMap((r, i) =>
    Array.from({ length: round }, (_, k) => {
      const turn = (2 * Math.PI * (k + 0.5)) / round;
      const part = ((weights[i] ?? 0) * 2 * Math.PI * r) / round;
      return { x: r * Math.cos(turn), y: r * Math.sin(turn), part };
    }),
  );
}

/**
 * Mean and standard deviation of a normal error in two coordinates, of which only what lies farther than `from` from the place
 * shown was seen: maximum likelihood of a truncated normal distribution by expectation and maximisation (Dempster, Laird and
 * Rubin, J. R. Stat. Soc. B 1977;39:1-38). What lies within the disc is put in as the present estimate expects it. Squares
 * beyond `FAR` variances are cut there, and the part that this loses on average is put back. `free`: the coordinates in which an
 * offset is looked for; 0 in the others.
 */
export function fitTail(
  places: readonly TailPlace[],
  from: number,
  free: { readonly x: boolean; readonly y: boolean },
): TailFit {
  const all = places.reduce((sum, { weight }) => sum + weight, 0);
  if (!(all > 0)) throw new Error('tail: there must be a place');
  const square = places.reduce((sum, { at, weight }) => sum + weight * (at.x ** 2 + at.y ** 2), 0);
  const perOffset = Math.sqrt(places.reduce((sum, each) => sum + each.weight * each.perOffset ** 2, 0) / all);
  const groups = groupsOf(places);
  let variance = Math.max(square / (2 * all), 1e-6);
  let offset: PicturePoint = { x: 0, y: 0 };
  for (let step = 0; step < STEPS; step += 1) {
    const sums = { x: 0, y: 0, offset: 0, squares: 0, count: 0 };
    for (const { shown, perOffset: per, of } of groups) {
      const middle = { x: offset.x * per, y: offset.y * per };
      const unseen = withinDisc(shown, from, middle, variance);
      const lost = 2 * variance * Math.exp(-FAR / 2) * (1 + unseen.times);
      for (const { at, weight } of of) {
        const off = (at.x - middle.x) ** 2 + (at.y - middle.y) ** 2;
        const kept = Math.min(1, Math.sqrt((FAR * variance) / Math.max(off, 1e-12)));
        sums.x += weight * per * (middle.x + kept * (at.x - middle.x) + unseen.times * unseen.x);
        sums.y += weight * per * (middle.y + kept * (at.y - middle.y) + unseen.times * unseen.y);
        sums.offset += weight * per ** 2 * (1 + unseen.times);
        sums.squares += weight * (Math.min(off, FAR * variance) + lost + unseen.times * unseen.square);
        sums.count += weight * (1 + unseen.times);
      }
    }
    const next = Math.max(sums.squares / (2 * sums.count), 1e-6);
    const to = { x: free.x ? sums.x / sums.offset : 0, y: free.y ? sums.y / sums.offset : 0 };
    const moved = perOffset * Math.hypot(to.x - offset.x, to.y - offset.y);
    const isSettled = Math.abs(next - variance) < SETTLED * next && moved < SETTLED * Math.sqrt(next);
    [offset, variance] = [to, next];
    if (isSettled) break;
  }
  const sd = Math.sqrt(variance);
  return { sd, offset, offsetU: sd / (perOffset * Math.sqrt(all)), perOffset };
}

/** Places for which the same is expected within the disc: shown at one place, and moved by as much. */
interface Group extends Pick<TailPlace, 'shown' | 'perOffset'> {
  readonly of: readonly TailPlace[];
}

function groupsOf(places: readonly TailPlace[]): readonly Group[] {
  const nameOf = ({ shown, perOffset }: TailPlace): string =>
    [shown.x, shown.y, perOffset].map((each) => each.toFixed(2)).join(' ');
  return [...grouped(places, nameOf).values()].flatMap((of) => {
    const [first] = of;
    return first === undefined ? [] : [{ shown: first.shown, perOffset: first.perOffset, of }];
  });
}

/** What is expected within the disc for each place outside: how many, their mean, and their mean square about the middle. */
interface Unseen extends PicturePoint {
  readonly times: number;
  readonly square: number;
}

function withinDisc(shown: PicturePoint, radius: number, middle: PicturePoint, variance: number): Unseen {
  const sums = { part: 0, x: 0, y: 0, square: 0 };
  for (const place of DISC) {
    const [x, y] = [shown.x + radius * place.x, shown.y + radius * place.y];
    const square = (x - middle.x) ** 2 + (y - middle.y) ** 2;
    const part = (place.part * radius ** 2 * Math.exp(-square / (2 * variance))) / (2 * Math.PI * variance);
    sums.part += part;
    sums.x += part * x;
    sums.y += part * y;
    sums.square += part * square;
  }
  if (!(sums.part > 1e-9)) return { times: 0, x: 0, y: 0, square: 0 };
  const within = Math.min(sums.part, MOST_UNSEEN / (MOST_UNSEEN + 1));
  return {
    times: within / (1 - within),
    ...{ x: sums.x / sums.part, y: sums.y / sums.part, square: sums.square / sums.part },
  };
}
