import type { PicturePoint } from '../model/mark.ts';

export interface LineFit {
  /** Mean of the points; it lies on the line. */
  readonly middle: PicturePoint;
  /** Radians in (-pi/2, pi/2], from +x toward +y; a line has no sense, so this is its angle modulo pi. */
  readonly direction: number;
  /** Root mean square distance of the points from the line, pixels, >= 0; 0 for two points. */
  readonly residual: number;
  /** From the first to the last of the points as seen along the line, pixels, > 0. */
  readonly length: number;
  /**
   * Standard uncertainty of `direction`, radians for points that each scatter by 1 px both ways: multiply it by the
   * placing. First order: it holds where it is far below 1.
   */
  readonly directionUncertainty: number;
}

/** The spreads of points along and across a line differ by less than this part: they lie in no direction. */
const ROUND = 1e-12;

/**
 * The line that comes nearest to two or more points: least squares of the distances at right angles to it (orthogonal
 * or total least squares, K. Pearson, "On lines and planes of closest fit to systems of points in space", Philosophical
 * Magazine 2 (1901) 559-572). null for fewer than two different points, and for points that lie in no direction more
 * than in another (the corners of a square).
 */
export function fitLine(points: readonly PicturePoint[]): LineFit | null {
  const n = points.length;
  if (n < 2) return null;
  const middle = {
    x: points.reduce((sum, { x }) => sum + x, 0) / n,
    y: points.reduce((sum, { y }) => sum + y, 0) / n,
  };
  const arms = points.map(({ x, y }) => ({ x: x - middle.x, y: y - middle.y }));
  const sum = (of: (arm: PicturePoint) => number) => arms.reduce((total, arm) => total + of(arm), 0);
  const [xx, xy, yy] = [sum(({ x }) => x * x), sum(({ x, y }) => x * y), sum(({ y }) => y * y)];
  // The difference of the spreads along and across, from the matrix's two eigenvalues.
  const apart = Math.hypot(xx - yy, 2 * xy);
  if (!(apart > ROUND * (xx + yy))) return null;
  const direction = directionOf(Math.atan2(2 * xy, xx - yy) / 2);
  const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
  const places = arms.map(({ x, y }) => x * cos + y * sin);
  // Summed from the distances themselves: as a difference of spreads it would drown in rounding.
  const across = sum(({ x, y }) => (y * cos - x * sin) ** 2);
  const along = places.reduce((total, place) => total + place * place, 0);
  return {
    middle,
    direction,
    residual: Math.sqrt(across / n),
    length: Math.max(...places) - Math.min(...places),
    // The direction turns by sum(along x across) / (along - across) when points move; each of the 2 n coordinates by 1 px.
    directionUncertainty: Math.sqrt(along + across) / (along - across),
  };
}

/** Half of an atan2 lies in [-pi/2, pi/2]; both ends are the same line. */
function directionOf(angle: number): number {
  return angle <= -Math.PI / 2 ? Math.PI / 2 : angle + 0;
}
