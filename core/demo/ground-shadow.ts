import type { Camera } from '../scene/camera.ts';
import { project } from '../scene/camera.ts';
import type { Vector } from '../scene/vector.ts';
import type { Piece } from './surfaces.ts';

/** The mask is this many times smaller than the picture each way: a soft shadow needs no more. */
const COARSE = 4;
/** Light for the shadow: steeper than the shading's, so that it stays under the player. */
const FALL = { x: 0.22, z: -0.2 };
const DARKEST = 0.5;
const BLUR = 2;

/** Scratch of one picture size, used again for every frame. */
export interface ShadowMask {
  readonly width: number;
  readonly height: number;
  readonly cover: Float32Array;
  readonly spare: Float32Array;
}

export function newShadowMask(width: number, height: number): ShadowMask {
  const size = { width: Math.ceil(width / COARSE), height: Math.ceil(height / COARSE) };
  const cells = size.width * size.height;
  return { ...size, cover: new Float32Array(cells), spare: new Float32Array(cells) };
}

/** Darkens the ground of a picture (RGBA, `width` pixels wide) where the pieces stand between it and the sky. */
export function castShadow(
  picture: Uint8Array,
  width: number,
  mask: ShadowMask,
  camera: Camera,
  pieces: readonly Piece[],
): void {
  mask.cover.fill(0);
  let top = mask.height;
  let bottom = -1;
  for (const piece of pieces) {
    const seen = piece.points.map((point) => project(camera, onGround(point)));
    for (let at = 0; at + 2 < piece.triangles.length; at += 3) {
      const a = seen[piece.triangles[at] ?? 0];
      const b = seen[piece.triangles[at + 1] ?? 0];
      const c = seen[piece.triangles[at + 2] ?? 0];
      if (a === undefined || b === undefined || c === undefined || a === null || b === null || c === null) continue;
      fill(mask, a, b, c);
      top = Math.min(top, Math.floor(Math.min(a.y, b.y, c.y) / COARSE));
      bottom = Math.max(bottom, Math.ceil(Math.max(a.y, b.y, c.y) / COARSE));
    }
  }
  top = Math.max(0, top - 2 * BLUR);
  bottom = Math.min(mask.height - 1, bottom + 2 * BLUR);
  for (let pass = 0; pass < 2; pass += 1) {
    smooth(mask.cover, mask.spare, mask.width, top, bottom, 1);
    smooth(mask.spare, mask.cover, mask.width, top, bottom, mask.width);
  }
  darken(picture, width, mask, top, bottom);
}

function onGround(point: Vector): Vector {
  return { x: point.x + FALL.x * point.y, y: 0, z: point.z + FALL.z * point.y };
}

type Place = { readonly x: number; readonly y: number };

function fill(mask: ShadowMask, a: Place, b: Place, c: Place): void {
  const top = Math.max(0, Math.floor(Math.min(a.y, b.y, c.y) / COARSE));
  const bottom = Math.min(mask.height - 1, Math.floor(Math.max(a.y, b.y, c.y) / COARSE));
  for (let row = top; row <= bottom; row += 1) {
    const y = Math.max(Math.min(a.y, b.y, c.y), Math.min(Math.max(a.y, b.y, c.y), (row + 0.5) * COARSE));
    let from = Infinity;
    let to = -Infinity;
    for (let edge = 0; edge < 3; edge += 1) {
      const p = edge === 0 ? a : edge === 1 ? b : c;
      const q = edge === 0 ? b : edge === 1 ? c : a;
      if ((y - p.y) * (y - q.y) > 0) continue;
      const x = p.y === q.y ? p.x : p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y);
      from = Math.min(from, x);
      to = Math.max(to, x);
    }
    const left = Math.max(0, Math.round(from / COARSE));
    const right = Math.min(mask.width - 1, Math.round(to / COARSE));
    if (left <= right) mask.cover.fill(1, row * mask.width + left, row * mask.width + right + 1);
  }
}

/** Mean over 2 BLUR + 1 cells along one direction (`step` 1: rows, width: columns). */
function smooth(from: Float32Array, to: Float32Array, width: number, top: number, bottom: number, step: number): void {
  for (let at = top * width; at < (bottom + 1) * width; at += 1) {
    let sum = 0;
    for (let side = -BLUR; side <= BLUR; side += 1) sum += from[at + side * step] ?? 0;
    to[at] = sum / (2 * BLUR + 1);
  }
}

function darken(picture: Uint8Array, width: number, mask: ShadowMask, top: number, bottom: number): void {
  const { cover } = mask;
  const height = picture.length / 4 / width;
  for (let y = Math.max(0, top * COARSE); y < Math.min(height, (bottom + 1) * COARSE); y += 1) {
    const row = (y + 0.5) / COARSE - 0.5;
    const above = Math.max(0, Math.floor(row));
    const below = Math.min(mask.height - 1, above + 1);
    const down = Math.max(0, row - above);
    for (let x = 0; x < width; x += 1) {
      const column = (x + 0.5) / COARSE - 0.5;
      const left = Math.max(0, Math.floor(column));
      const right = Math.min(mask.width - 1, left + 1);
      const aside = Math.max(0, column - left);
      const a = cover[above * mask.width + left] ?? 0;
      const b = cover[above * mask.width + right] ?? 0;
      const c = cover[below * mask.width + left] ?? 0;
      const d = cover[below * mask.width + right] ?? 0;
      if (a + b + c + d === 0) continue;
      const shadow = (a + (b - a) * aside) * (1 - down) + (c + (d - c) * aside) * down;
      const keep = 1 - DARKEST * shadow;
      const at = (y * width + x) * 4;
      picture[at] = (picture[at] ?? 0) * keep;
      picture[at + 1] = (picture[at + 1] ?? 0) * keep;
      picture[at + 2] = (picture[at + 2] ?? 0) * keep;
    }
  }
}
