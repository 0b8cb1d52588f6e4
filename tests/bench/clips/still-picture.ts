import { seeded } from '../../support/seeded.ts';
import type { Size } from './code-strip.ts';

/** Side of the grid of random greys in pixels of a picture 1080 lines high, and how far they go from the middle. */
const LUMA_GRIDS = [
  [400, 40],
  [130, 24],
  [40, 14],
  [12, 22],
  [5, 14],
  [2, 9],
] as const;
const CHROMA_GRIDS = [
  [400, 12],
  [120, 6],
] as const;
const SEED = 240;

/**
 * A picture with detail of every size, about as much of each as a lawn, a net or a wall has, as planar 4:2:0 bytes. Even
 * noise would cost an encoder far more than film does, an even wall far less.
 */
export function stillPicture({ width, height }: Size): Uint8Array {
  const random = seeded(SEED);
  const scale = height / 1080;
  const luma = sumOfGrids({ width, height }, LUMA_GRIDS, scale, random);
  const half = { width: width / 2, height: height / 2 };
  const chroma = [0, 1].map(() => sumOfGrids(half, CHROMA_GRIDS, scale / 2, random));
  const bytes = new Uint8ClampedArray((width * height * 3) / 2);
  bytes.set(luma.map((value) => Math.min(235, Math.max(16, 118 + value))));
  for (const [place, plane] of chroma.entries())
    bytes.set(
      plane.map((value) => 128 + value),
      width * height + place * plane.length,
    );
  return new Uint8Array(bytes.buffer);
}

function sumOfGrids(
  size: Size,
  grids: readonly (readonly [side: number, most: number])[],
  scale: number,
  random: () => number,
): Float32Array {
  const sum = new Float32Array(size.width * size.height);
  for (const [side, most] of grids) addGrid(sum, size, Math.max(1, side * scale), most, random);
  return sum;
}

/** Random values on a grid, between them in straight lines. */
function addGrid(sum: Float32Array, { width, height }: Size, side: number, most: number, random: () => number): void {
  const across = Math.ceil(width / side) + 2;
  const grid = Float32Array.from({ length: across * (Math.ceil(height / side) + 2) }, () => (random() * 2 - 1) * most);
  for (let y = 0; y < height; y += 1) {
    const row = Math.floor(y / side);
    const down = y / side - row;
    for (let x = 0; x < width; x += 1) {
      const column = Math.floor(x / side);
      const right = x / side - column;
      const at = row * across + column;
      const above = (grid[at] ?? 0) * (1 - right) + (grid[at + 1] ?? 0) * right;
      const below = (grid[at + across] ?? 0) * (1 - right) + (grid[at + across + 1] ?? 0) * right;
      sum[y * width + x] = (sum[y * width + x] ?? 0) + above * (1 - down) + below * down;
    }
  }
}
