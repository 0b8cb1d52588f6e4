import type { PicturePoint } from '../model/mark.ts';
import { fitLine } from './fit-line.ts';
import { leastSquares } from './least-squares.ts';
import { distort, distortionSlopes, straighten } from './lens.ts';
import type { Lens } from './lens.ts';
import { symmetricEigen } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/** Places in the picture, at least three, that lie on one straight edge in reality. */
export type StraightEdge = readonly PicturePoint[];

/** Why edges do not tell a lens; checked in this order. */
export type LensRefusal =
  /** Less than three places on each edge, or fewer than `SPARE` places more than the edges' lines use up. */
  | 'too-few-places'
  /** The edges that are long enough pass the middle of the picture, where every lens leaves them straight. */
  | 'through-middle'
  /** No edge is long enough to show a bend. */
  | 'too-short'
  /** The fit does not settle, or its lens folds the picture over inside its corners. */
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
/** Of half the diagonal: an edge that passes the middle nearer than this bends 10 times less than one at the rim. */
export const NEAREST = 0.1;
/** Of half the diagonal: an edge shorter than this bends by less than 1/64 of what the lens moves the corner (k1 l² / 8 of
 * the distance from the middle), below a pixel for most lenses. */
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
  const plain = estimate(usable, none, 1, placing);
  if (plain === null) return { state: 'refused', reason: 'no-lens', estimate: null };
  const richer = estimate(usable, none, 2, placing);
  const carried =
    richer !== null &&
    Math.abs(richer.lens.k2) > SIGNIFICANT * richer.u2 &&
    countOf(usable) * (plain.after ** 2 - richer.after ** 2) > (SIGNIFICANT * richer.placing) ** 2;
  const found = carried ? richer : plain;
  if (found.after > MOST_LEFT * placing) return { state: 'refused', reason: 'still-bent', estimate: found };
  const told = carried || Math.abs(found.lens.k1) > SIGNIFICANT * found.u1;
  return told ? { state: 'fitted', estimate: found } : { state: 'refused', reason: 'not-significant', estimate: found };
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

/** The first `count` of k1, k2 with the direction and the offset of each edge's line, together. */
function estimate(edges: readonly StraightEdge[], none: Lens, count: 1 | 2, placing: number): LensEstimate | null {
  const lines = edges.map((edge) => fitLine(edge));
  const started = lines.every((line) => line !== null);
  if (!started) return null;
  const lensOf = ([k1 = 0, k2 = 0]: Vector): Lens => ({ ...none, k1, k2: count === 2 ? k2 : 0 });
  // Slopes along the lines leave the lens as it is: its places are straightened once for all of them.
  let last: { readonly lens: Lens; readonly places: readonly (readonly StraightPlace[])[] | null } | null = null;
  const straightOf = (lens: Lens): readonly (readonly StraightPlace[])[] | null => {
    if (last?.lens.k1 !== lens.k1 || last.lens.k2 !== lens.k2) last = { lens, places: straightPlaces(lens, edges) };
    return last.places;
  };
  const residuals = (parameters: Vector): Vector | null => {
    const straight = straightOf(lensOf(parameters));
    if (straight === null) return null;
    const all: number[] = [];
    for (const [i, edge] of straight.entries()) {
      const turned = (lines[i]?.direction ?? 0) + (parameters[count + 2 * i] ?? 0);
      const shift = (parameters[count + 2 * i + 1] ?? 0) * none.focal;
      for (const place of edge) all.push(seenDistance(place, lines[i]?.middle ?? none.centre, turned, shift));
    }
    return all;
  };
  const start = [...Array<number>(count).fill(0), ...lines.flatMap(() => [0, 0])];
  const fit = leastSquares(
    residuals,
    start,
    start.map(() => 1),
  );
  if (fit === null || fit.covariance === null) return null;
  const lens = lensOf(fit.parameters);
  // A lens that folds inside the picture is no lens: the corner, which is 1 from the centre, must be shown.
  const corner = { x: none.centre.x + none.focal, y: none.centre.y };
  if (distort(lens, corner) === null || straighten(lens, corner) === null) return null;
  const places = countOf(edges);
  const free = places - start.length;
  const scatter = free > 0 ? Math.sqrt(fit.sum / free) : 0;
  const covariance = fit.covariance.slice(0, count).map((row) => row.slice(0, count));
  const used = Math.max(placing, scatter);
  const u = covariance.map((row, i) => used * Math.sqrt(row[i] ?? Number.NaN));
  return {
    lens,
    before: Math.sqrt(lines.reduce((sum, line, i) => sum + line.residual ** 2 * (edges[i]?.length ?? 0), 0) / places),
    after: Math.sqrt(fit.sum / places),
    placing: used,
    u1: u[0] ?? 0,
    u2: u[1] ?? 0,
    covariance,
    steps: stepsOf(covariance, used),
    reach: Math.max(...edges.flat().map(({ x, y }) => Math.hypot(x - none.centre.x, y - none.centre.y))),
  };
}

/** Where a place would lie without the lens, and how what is seen there moves with it (see `distortionSlopes`). */
interface StraightPlace {
  readonly ideal: PicturePoint;
  readonly slopes: ReturnType<typeof distortionSlopes>;
}

/** null where the lens shows nothing at a place. */
function straightPlaces(lens: Lens, edges: readonly StraightEdge[]): readonly (readonly StraightPlace[])[] | null {
  const all: StraightPlace[][] = [];
  for (const edge of edges) {
    const places: StraightPlace[] = [];
    for (const place of edge) {
      const ideal = straighten(lens, place);
      if (ideal === null) return null;
      places.push({ ideal, slopes: distortionSlopes(lens, ideal) });
    }
    all.push(places);
  }
  return all;
}

/**
 * How far a seen place is from the bent picture of a line, to first order, signed: the straightened place's distance from
 * the line over how much that distance grows for a pixel moved in the picture. The line passes `shift` beside `middle`.
 */
function seenDistance(
  { ideal, slopes: [xx, xy, yx, yy] }: StraightPlace,
  middle: PicturePoint,
  direction: number,
  shift: number,
): number {
  const normal = { x: -Math.sin(direction), y: Math.cos(direction) };
  const distance = (ideal.x - middle.x) * normal.x + (ideal.y - middle.y) * normal.y - shift;
  // The slopes' inverse, turned over, takes the normal into the picture as seen.
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
