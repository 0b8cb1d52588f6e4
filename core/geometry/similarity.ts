import type { PicturePoint } from '../model/mark.ts';

/** Move, turn and scale, never mirror: (x, y) -> (a x - b y + x0, b x + a y + y0). Scale is hypot(a, b) > 0. */
export interface Similarity {
  readonly a: number;
  readonly b: number;
  readonly x0: number;
  readonly y0: number;
}

export interface PointPair {
  readonly from: PicturePoint;
  readonly to: PicturePoint;
}

export interface SimilarityFit {
  readonly transform: Similarity;
  /** Root mean square distance, in pixels of `to`, that is left between the moved points and theirs. */
  readonly residual: number;
}

/**
 * The similarity that brings `from` nearest to `to` in least squares (in two dimensions linear in a, b, x0, y0; the
 * closed form is the complex regression of `to` on `from`). null with fewer than two different points on either side.
 */
export function fitSimilarity(pairs: readonly PointPair[]): SimilarityFit | null {
  const n = pairs.length;
  if (n < 2) return null;
  const mean = (pick: (pair: PointPair) => number) => pairs.reduce((sum, pair) => sum + pick(pair), 0) / n;
  const fromX = mean((pair) => pair.from.x);
  const fromY = mean((pair) => pair.from.y);
  const toX = mean((pair) => pair.to.x);
  const toY = mean((pair) => pair.to.y);
  let spread = 0;
  let along = 0;
  let across = 0;
  for (const { from, to } of pairs) {
    const x = from.x - fromX;
    const y = from.y - fromY;
    spread += x * x + y * y;
    along += x * (to.x - toX) + y * (to.y - toY);
    across += x * (to.y - toY) - y * (to.x - toX);
  }
  if (spread === 0 || (along === 0 && across === 0)) return null;
  const a = along / spread;
  const b = across / spread;
  const transform = { a, b, x0: toX - a * fromX + b * fromY, y0: toY - b * fromX - a * fromY };
  const squares = pairs.map(({ from, to }) => {
    const moved = applySimilarity(transform, from);
    return (moved.x - to.x) ** 2 + (moved.y - to.y) ** 2;
  });
  return { transform, residual: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / n) };
}

export function applySimilarity(transform: Similarity, point: PicturePoint): PicturePoint {
  const { a, b, x0, y0 } = transform;
  return { x: a * point.x - b * point.y + x0, y: b * point.x + a * point.y + y0 };
}
