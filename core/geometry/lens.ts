import type { PicturePoint } from '../model/mark.ts';

/**
 * How a lens bends straight lines (D. C. Brown, "Close-Range Camera Calibration", Photogrammetric Engineering 37 (1971)
 * 855-866; the usual form): with x, y from the centre in units of `focal` and r² = x² + y²,
 * seen x = x (1 + k1 r² + k2 r⁴ + k3 r⁶) + 2 p1 x y + p2 (r² + 2 x²), seen y = y (...) + p1 (r² + 2 y²) + 2 p2 x y.
 * All of them 0: no lens at all. k1 < 0 is a barrel, as wide lenses have; k1 > 0 a pincushion.
 */
export interface Lens {
  /** Pixels, > 0: the unit that k1 ... k3 are told in. */
  readonly focal: number;
  /** Where straight lines stay straight and nothing moves, picture pixels. */
  readonly centre: PicturePoint;
  readonly k1: number;
  readonly k2: number;
  readonly p1: number;
  readonly p2: number;
  readonly k3: number;
}

/** A step shorter than this many pixels ends the search; rounding in a picture of some 1000 px stays below it. */
const CLOSE = 1e-9;
const MOST_STEPS = 60;

/**
 * Where the lens shows an ideal place, both in picture pixels. null beyond the fold: where the formula turns back toward
 * the centre, and shows two places as one, it says nothing about a lens.
 */
export function distort(lens: Lens, ideal: PicturePoint): PicturePoint | null {
  const [x, y] = [(ideal.x - lens.centre.x) / lens.focal, (ideal.y - lens.centre.y) / lens.focal];
  return isBeforeFold(lens, x, y) ? toPicture(lens, bend(lens, x, y)) : null;
}

/**
 * The ideal place that the lens shows at `seen`, both in picture pixels, to 1e-9 px: what `distort` undoes. The radial
 * part is solved inside the fold, where it has one answer, and Newton's steps do the rest. null where the lens shows
 * nothing there (beyond its fold), and where 60 steps do not settle it.
 */
export function straighten(lens: Lens, seen: PicturePoint): PicturePoint | null {
  const wanted = { x: (seen.x - lens.centre.x) / lens.focal, y: (seen.y - lens.centre.y) / lens.focal };
  const away = Math.hypot(wanted.x, wanted.y);
  if (!Number.isFinite(away + lens.k1 + lens.k2 + lens.k3 + lens.p1 + lens.p2)) return null;
  if (away === 0 || isNone(lens)) return { x: seen.x, y: seen.y };
  const root = radialRoot(lens, away);
  let [x, y] = [(wanted.x * root) / away, (wanted.y * root) / away];
  // Without the rest the radial part is the answer; a run of trials asks so often that it is worth a line.
  if (lens.p1 === 0 && lens.p2 === 0) return root < foldRadius(lens) ? toPicture(lens, { x, y }) : null;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const [xx, xy, yx, yy] = slopes(lens, x, y);
    const determinant = xx * yy - xy * yx;
    if (!(determinant > 0)) return null;
    const at = bend(lens, x, y);
    const [dx, dy] = [wanted.x - at.x, wanted.y - at.y];
    const [byX, byY] = [(yy * dx - xy * dy) / determinant, (xx * dy - yx * dx) / determinant];
    [x, y] = [x + byX, y + byY];
    if (Math.hypot(byX, byY) * lens.focal <= CLOSE) return isBeforeFold(lens, x, y) ? toPicture(lens, { x, y }) : null;
  }
  return null;
}

/**
 * How the seen place moves with the ideal one, at an ideal place in picture pixels: [d x / d x, d x / d y, d y / d x,
 * d y / d y], seen by ideal; [1, 0, 0, 1] where the lens does nothing.
 */
export function distortionSlopes(lens: Lens, ideal: PicturePoint): readonly [number, number, number, number] {
  return slopes(lens, (ideal.x - lens.centre.x) / lens.focal, (ideal.y - lens.centre.y) / lens.focal);
}

function isNone({ k1, k2, k3, p1, p2 }: Lens): boolean {
  return k1 === 0 && k2 === 0 && k3 === 0 && p1 === 0 && p2 === 0;
}

function toPicture({ focal, centre }: Lens, { x, y }: PicturePoint): PicturePoint {
  return { x: centre.x + focal * x, y: centre.y + focal * y };
}

function bend({ k1, k2, k3, p1, p2 }: Lens, x: number, y: number): PicturePoint {
  const s = x * x + y * y;
  const grown = 1 + s * (k1 + s * (k2 + s * k3));
  return {
    x: x * grown + 2 * p1 * x * y + p2 * (s + 2 * x * x),
    y: y * grown + p1 * (s + 2 * y * y) + 2 * p2 * x * y,
  };
}

function slopes({ k1, k2, k3, p1, p2 }: Lens, x: number, y: number): readonly [number, number, number, number] {
  const s = x * x + y * y;
  const grown = 1 + s * (k1 + s * (k2 + s * k3));
  const more = 2 * (k1 + s * (2 * k2 + s * 3 * k3));
  const cross = x * y * more + 2 * p1 * x + 2 * p2 * y;
  return [grown + x * x * more + 2 * p1 * y + 6 * p2 * x, cross, cross, grown + y * y * more + 6 * p1 * y + 2 * p2 * x];
}

/** Before the fold of the radial part, and where the picture is not turned inside out by the rest. */
function isBeforeFold(lens: Lens, x: number, y: number): boolean {
  const [xx, xy, yx, yy] = slopes(lens, x, y);
  return xx * yy - xy * yx > 0 && Math.hypot(x, y) < foldRadius(lens);
}

/** Where r (1 + k1 r² + k2 r⁴ + k3 r⁶) stops growing, in units of `focal`; Infinity where it never does. */
function foldRadius(lens: Lens): number {
  return lens.k3 === 0 ? foldWithoutThird(lens) : foldWithThird(lens);
}

/** The smallest s = r² > 0 with 1 + 3 k1 s + 5 k2 s² = 0, from 1 / s and without cancellation. A run of trials asks often. */
function foldWithoutThird({ k1, k2 }: Lens): number {
  const square = 9 * k1 * k1 - 20 * k2;
  if (square < 0) return Infinity;
  const root = Math.sqrt(square);
  // 2 / s = -3 k1 + root.
  const nearness = k1 <= 0 ? root - 3 * k1 : (-20 * k2) / (root + 3 * k1);
  return nearness > 0 ? Math.sqrt(2 / nearness) : Infinity;
}

function foldWithThird({ k1, k2, k3 }: Lens): number {
  const growth = (s: number) => 1 + s * (3 * k1 + s * (5 * k2 + s * 7 * k3));
  // Between its turning points the growth is monotonous, so that each stretch holds one root at most.
  const turns = quadraticRoots(21 * k3, 10 * k2, 3 * k1).filter((s) => s > 0);
  let from = 0;
  for (const to of turns) {
    if (growth(to) <= 0) return Math.sqrt(bisect(growth, from, to));
    from = to;
  }
  if (k3 > 0) return Infinity;
  let far = 2 * from + 1;
  while (growth(far) > 0) far *= 2;
  return Math.sqrt(bisect(growth, from, far));
}

/** Real roots of a s² + b s + c from the smaller to the larger, without cancellation. */
function quadraticRoots(a: number, b: number, c: number): readonly number[] {
  if (a === 0) return b === 0 ? [] : [-c / b];
  const square = b * b - 4 * a * c;
  if (square < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(square)) / 2;
  return q === 0 ? [0] : [q / a, c / q].sort((one, other) => one - other);
}

/** Where `falling` passes from above 0 at `low` to 0 or below at `high`. */
function bisect(falling: (at: number) => number, low: number, high: number): number {
  for (;;) {
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) return low;
    if (falling(middle) > 0) low = middle;
    else high = middle;
  }
}

/** More than it ever takes: each step at least halves what is left, or comes nearer as Newton's do. */
const MOST_ROOT_STEPS = 100;

/**
 * The r before the fold whose r (1 + k1 r² + ...) is `away`, to about 1e-12 of itself, or the fold's own where nothing is
 * shown so far out. Newton's steps, and half the stretch where one would leave it.
 */
function radialRoot(lens: Lens, away: number): number {
  const { k1, k2, k3 } = lens;
  const short = (r: number) => away - r * (1 + r * r * (k1 + r * r * (k2 + r * r * k3)));
  const growth = (r: number) => 1 + r * r * (3 * k1 + r * r * (5 * k2 + r * r * 7 * k3));
  const fold = foldRadius(lens);
  let far = Math.min(fold, away);
  while (short(far) > 0) {
    if (far === fold) return fold;
    far = Math.min(fold, 2 * far);
  }
  let [low, high, r] = [0, far, far];
  for (let step = 0; step < MOST_ROOT_STEPS; step += 1) {
    const missing = short(r);
    if (missing > 0) low = r;
    else high = r;
    const wanted = r + missing / growth(r);
    const next = wanted > low && wanted < high ? wanted : (low + high) / 2;
    if (Math.abs(next - r) <= 1e-13 * r) return next;
    r = next;
  }
  return r;
}
