import type { PicturePoint } from '../model/mark.ts';
import { fitLine } from './fit-line.ts';
import { leastSquares } from './least-squares.ts';
import { distortionSlopes, straighten } from './lens.ts';
import type { Lens } from './lens.ts';
import { symmetricEigen } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/** Places in the picture, at least three, that lie on one straight edge in reality. */
export type StraightEdge = readonly PicturePoint[];

/** Why edges do not tell a lens; checked in this order. */
export type LensRefusal =
  /** Less than three places on each edge, or fewer than `SPARE` places more than the edges' lines use up. */
  | 'too-few-places'
  /** No edge is long enough to show a bend. */
  | 'too-short'
  /** The edges that are long enough pass the middle of the picture, where every lens leaves them straight. */
  | 'through-middle'
  /** The fit does not settle, or its lens does not show the picture's corners (k1 alone: below -4/27 it folds before). */
  | 'no-lens'
  /** What is left after straightening is more than placing explains: the edges are not straight in reality. */
  | 'still-bent'
  /** k1 is less than `SIGNIFICANT` of its standard uncertainties away from 0. */
  | 'not-significant';

export interface LensEstimate {
  /** Centre in the middle of the picture, `focal` half its diagonal (only k1 / focal² can be told), p1 = p2 = k3 = 0. */
  readonly lens: Lens;
  /** Root mean square distance of the places from their own best lines, pixels: as they are seen. */
  readonly before: number;
  /** The same with the lens, pixels of the picture as seen: each place from the bent line of its edge. */
  readonly after: number;
  /** Placing that the uncertainties below are for, pixels: what was told, or more where `after` says more. */
  readonly placing: number;
  /** Standard uncertainties; 0 for a k2 that is not estimated. */
  readonly u1: number;
  readonly u2: number;
  /** Covariance of k1, and of k2 where it is estimated, for places that each scatter by 1 px. */
  readonly covariance: Matrix;
  /** Independent steps of the lens, each one standard uncertainty wide: squares of what they change add up. */
  readonly steps: readonly LensStep[];
  /** Farthest place from the middle, pixels: beyond it the lens is an extrapolation. */
  readonly reach: number;
}

export interface LensStep {
  readonly k1: number;
  readonly k2: number;
}

export type LensFit =
  | { readonly state: 'fitted'; readonly estimate: LensEstimate }
  /** `estimate`: where there is one, for a bound on what the lens may do. */
  | { readonly state: 'refused'; readonly reason: LensRefusal; readonly estimate: LensEstimate | null };

/** Places beyond the two that each edge's line uses up: one tells k1, two more show whether it holds. */
export const SPARE = 3;
/** Of half the diagonal: an edge that passes the middle nearer than this bends less than a tenth of one at the rim. */
export const NEAREST = 0.1;
/**
 * Of half the diagonal. An edge of length l at the distance d bows by k1 d l² / 4: one of this length, half way to the rim,
 * by 1/65 of what the lens moves a corner, which is a pixel or two.
 */
export const SHORTEST = 0.35;
/** Standard uncertainties that a coefficient must be away from 0: 1 in 370 by chance alone. */
export const SIGNIFICANT = 3;
/** Times the placing told. */
export const MOST_LEFT = 3;

/**
 * The lens that makes marked edges straight. Least squares of the distances in the picture as seen, to first order
 * (P. D. Sampson, "Fitting conic sections to very scattered data", Computer Graphics and Image Processing 18 (1982)
 * 97-108): measured among the straightened places they could be made small by shrinking the picture. The edges' lines
 * are estimated along with it. k2 is kept only when it is `SIGNIFICANT` and lowers the sum of squares by as many placings
 * squared; else k1 alone. `placing`: pixels, > 0, standard deviation of a marked place across its edge.
 */
export function fitLens(
  edges: readonly StraightEdge[],
  picture: { readonly width: number; readonly height: number },
  placing: number,
): LensFit {
  if (!(placing > 0)) throw new Error('fitLens: the placing must be above 0');
  if (!(picture.width > 0 && picture.height > 0)) throw new Error('fitLens: the picture must have a size');
  const centre = { x: picture.width / 2, y: picture.height / 2 };
  const none = { focal: Math.hypot(centre.x, centre.y), centre, k1: 0, k2: 0, p1: 0, p2: 0, k3: 0 };
  const refused = whyNot(edges, none);
  if (refused !== null) return { state: 'refused', reason: refused, estimate: null };
  const usable = edges.filter((edge) => edge.length > 2);
  const plain = estimate(usable, none, [0], placing);
  const richer = firstOf(STARTS, (start) => estimate(usable, none, start, placing));
  const carried =
    richer !== null &&
    Math.abs(richer.lens.k2) > SIGNIFICANT * richer.u2 &&
    (plain === null || countOf(usable) * (plain.after ** 2 - richer.after ** 2) > (SIGNIFICANT * richer.placing) ** 2);
  const found = carried ? richer : plain;
  if (found === null) return { state: 'refused', reason: 'no-lens', estimate: null };
  if (found.after > MOST_LEFT * placing) return { state: 'refused', reason: 'still-bent', estimate: found };
  const told = carried || Math.abs(found.lens.k1) > SIGNIFICANT * found.u1;
  return told ? { state: 'fitted', estimate: found } : { state: 'refused', reason: 'not-significant', estimate: found };
}

/**
 * Starts for k1 and k2. On the way from no lens to a strong barrel k1 can run ahead of k2 into a fold, where the search ends;
 * a barrel whose k2 already holds it open is tried then.
 */
const STARTS = [
  [0, 0],
  [-0.2, 0.1],
] as const;

function firstOf<S, T>(starts: readonly S[], of: (start: S) => T | null): T | null {
  for (const start of starts) {
    const found = of(start);
    if (found !== null) return found;
  }
  return null;
}

/** What the edges lack before anything is fitted. An edge of fewer than three places is straight by itself: left out. */
function whyNot(edges: readonly StraightEdge[], { focal, centre }: Lens): LensRefusal | null {
  const usable = edges.filter((edge) => edge.length > 2);
  if (countOf(usable) - 2 * usable.length < SPARE) return 'too-few-places';
  const lines = usable.map(fitLine).filter((line) => line !== null);
  const long = lines.filter(({ length }) => length >= SHORTEST * focal);
  if (long.length === 0) return 'too-short';
  const distances = long.map(({ middle, direction }) =>
    Math.abs((middle.x - centre.x) * Math.sin(direction) - (middle.y - centre.y) * Math.cos(direction)),
  );
  return distances.every((distance) => distance < NEAREST * focal) ? 'through-middle' : null;
}

/** k1, or k1 and k2, from a start, with the direction and the offset of each edge's line, together. */
function estimate(
  edges: readonly StraightEdge[],
  none: Lens,
  from: readonly number[],
  placing: number,
): LensEstimate | null {
  const count = from.length;
  const lines = edges.map((edge) => fitLine(edge));
  const started = lines.every((line) => line !== null);
  if (!started) return null;
  const lensOf = ([k1 = 0, k2 = 0]: Vector): Lens => ({ ...none, k1, k2: count === 2 ? k2 : 0 });
  const places = edges.flat();
  // The edges' own parameters leave the straightened places as they are: those of the last lens are kept.
  let last = { lens: none, at: straightPlaces(none, places) };
  const residuals = (parameters: Vector): Vector | null => {
    const lens = lensOf(parameters);
    if (lens.k1 !== last.lens.k1 || lens.k2 !== last.lens.k2) last = { lens, at: straightPlaces(lens, places) };
    if (last.at === null) return null;
    const all: number[] = [];
    for (const [i, edge] of edges.entries()) {
      const middle = lines[i]?.middle ?? none.centre;
      const turned = (lines[i]?.direction ?? 0) + (parameters[count + 2 * i] ?? 0);
      const shift = (parameters[count + 2 * i + 1] ?? 0) * none.focal;
      for (const place of last.at.slice(all.length, all.length + edge.length))
        all.push(seenDistance(place, middle, turned, shift));
    }
    return all;
  };
  const start = [...from, ...lines.flatMap(() => [0, 0])];
  const fit = leastSquares(
    residuals,
    start,
    start.map(() => 1),
  );
  if (fit === null || fit.covariance === null) return null;
  const lens = lensOf(fit.parameters);
  // A lens that folds inside the picture is no lens: the corner, one focal length from the centre, must be shown.
  if (straighten(lens, { x: none.centre.x + none.focal, y: none.centre.y }) === null) return null;
  const free = places.length - start.length;
  const scatter = free > 0 ? Math.sqrt(fit.sum / free) : 0;
  const covariance = fit.covariance.slice(0, count).map((row) => row.slice(0, count));
  const used = Math.max(placing, scatter);
  const u = covariance.map((row, i) => used * Math.sqrt(row[i] ?? Number.NaN));
  return {
    lens,
    before: Math.sqrt(
      lines.reduce((sum, line, i) => sum + line.residual ** 2 * (edges[i]?.length ?? 0), 0) / places.length,
    ),
    after: Math.sqrt(fit.sum / places.length),
    placing: used,
    u1: u[0] ?? 0,
    u2: u[1] ?? 0,
    covariance,
    steps: stepsOf(covariance, used),
    reach: Math.max(...places.map(({ x, y }) => Math.hypot(x - none.centre.x, y - none.centre.y))),
  };
}

interface StraightPlace {
  readonly ideal: PicturePoint;
  /** `distortionSlopes` there. */
  readonly slopes: readonly [number, number, number, number];
}

/** null where the lens does not show one of the places. */
function straightPlaces(lens: Lens, places: readonly PicturePoint[]): readonly StraightPlace[] | null {
  const all: StraightPlace[] = [];
  for (const place of places) {
    const ideal = straighten(lens, place);
    if (ideal === null) return null;
    all.push({ ideal, slopes: distortionSlopes(lens, ideal) });
  }
  return all;
}

/**
 * How far a seen place is from the bent picture of a line, to first order, signed: the straightened place's distance from
 * the line over how much that distance grows for a pixel moved in the picture. The line passes `shift` beside `middle`.
 */
function seenDistance(
  { ideal, slopes }: StraightPlace,
  middle: PicturePoint,
  direction: number,
  shift: number,
): number {
  const normal = { x: -Math.sin(direction), y: Math.cos(direction) };
  const distance = (ideal.x - middle.x) * normal.x + (ideal.y - middle.y) * normal.y - shift;
  // The slopes' inverse, turned over, takes the normal into the picture as seen.
  const [xx, xy, yx, yy] = slopes;
  const growth = Math.hypot(yy * normal.x - yx * normal.y, xx * normal.y - xy * normal.x) / (xx * yy - xy * yx);
  return distance / growth;
}

function stepsOf(covariance: Matrix, placing: number): readonly LensStep[] {
  const { values, vectors } = symmetricEigen(covariance);
  return vectors.map(([k1 = 0, k2 = 0], i) => {
    const by = placing * Math.sqrt(Math.max(0, values[i] ?? 0));
    return { k1: by * k1, k2: by * k2 };
  });
}

function countOf(edges: readonly StraightEdge[]): number {
  return edges.reduce((sum, edge) => sum + edge.length, 0);
}
