import type { Camera } from '../scene/camera.ts';
import { project } from '../scene/camera.ts';
import { dot, unit } from '../scene/vector.ts';
import type { Vector } from '../scene/vector.ts';
import type { Colour, Piece } from './surfaces.ts';

/** Samples a pixel each way. Two give smooth edges at a quarter of the cost of four. */
export const FINE = 2;
const SHADES = 256;

/** Light that comes from above, from the ball side and from behind the player, so that both views have a dark side. */
export const LIGHT: Vector = unit({ x: -0.42, y: 0.8, z: 0.5 });

/** A picture at `FINE` times the size, with the nearest surface in each sample. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** 1 / depth in 1/m, larger is nearer; 0 where nothing is. */
  readonly nearness: Float32Array;
  /** 0xBBGGRR. */
  readonly colours: Uint32Array;
  /** First and last sample of each row that was painted since it was last cleared; an empty row's first is past its last. */
  readonly lefts: Int32Array;
  readonly rights: Int32Array;
  /** First and last row with such a sample. */
  touched: { top: number; bottom: number };
}

export function newRaster(width: number, height: number): Raster {
  const samples = width * height * FINE * FINE;
  return {
    width: width * FINE,
    height: height * FINE,
    nearness: new Float32Array(samples),
    colours: new Uint32Array(samples),
    lefts: new Int32Array(height * FINE).fill(width * FINE),
    rights: new Int32Array(height * FINE).fill(-1),
    touched: { top: height * FINE, bottom: -1 },
  };
}

export function clearRaster(raster: Raster): void {
  const { lefts, rights, touched, nearness, width, height } = raster;
  for (let y = touched.top; y <= touched.bottom; y += 1)
    nearness.fill(0, y * width + (lefts[y] ?? 0), y * width + (rights[y] ?? -1) + 1);
  lefts.fill(width);
  rights.fill(-1);
  raster.touched = { top: height, bottom: -1 };
}

/** Paints surfaces with the nearest in front, shaded smoothly from corner to corner. Nothing is painted behind the lens. */
export function paintPieces(raster: Raster, camera: Camera, pieces: readonly Piece[]): void {
  for (const piece of pieces) paintPiece(raster, camera, piece);
}

function paintPiece(raster: Raster, camera: Camera, piece: Piece): void {
  const shades = shadesOf(piece.colour);
  const corners: Corner[] = [];
  for (const [at, point] of piece.points.entries()) {
    const seen = project(camera, point);
    if (seen === null) return;
    const normal = piece.normals[at] ?? LIGHT;
    corners.push({
      x: seen.x * FINE - 0.5,
      y: seen.y * FINE - 0.5,
      near: 1 / seen.depth,
      shade: shadeOf(normal, camera, point, piece.colour.shine),
    });
  }
  for (let at = 0; at + 2 < piece.triangles.length; at += 3) {
    const a = corners[piece.triangles[at] ?? 0];
    const b = corners[piece.triangles[at + 1] ?? 0];
    const c = corners[piece.triangles[at + 2] ?? 0];
    if (a !== undefined && b !== undefined && c !== undefined) paintTriangle(raster, a, b, c, shades);
  }
}

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly near: number;
  readonly shade: number;
}

/** 0 (dark) to 255 (highlight): sky light by how far a surface faces up, sun by how far it faces the light. */
function shadeOf(normal: Vector, camera: Camera, point: Vector, shine: number): number {
  const toEye = unit({ x: camera.centre.x - point.x, y: camera.centre.y - point.y, z: camera.centre.z - point.z });
  const facing = dot(normal, toEye);
  const sun = Math.max(0, dot(normal, LIGHT));
  const sky = 0.5 + 0.5 * normal.y;
  const edge = Math.max(0, Math.min(1, facing * 2.2));
  const half = unit({ x: toEye.x + LIGHT.x, y: toEye.y + LIGHT.y, z: toEye.z + LIGHT.z });
  const gloss = shine * Math.pow(Math.max(0, dot(normal, half)), 24) * 0.6;
  const light = (0.47 + 0.2 * sky + 0.48 * sun) * (0.76 + 0.24 * edge) + gloss;
  return Math.max(0, Math.min(SHADES - 1, light * 200));
}

const shadeTables = new Map<Colour, Uint32Array>();

/** Shade 200 is the colour itself; darker shades turn a little blue, as in open shade. */
function shadesOf(colour: Colour): Uint32Array {
  const known = shadeTables.get(colour);
  if (known !== undefined) return known;
  const table = new Uint32Array(SHADES);
  for (let shade = 0; shade < SHADES; shade += 1) {
    const light = shade / 200;
    const over = Math.max(0, light - 1);
    const channel = (value: number, tint: number): number =>
      Math.round(Math.max(0, Math.min(255, value * Math.min(1, light * (1 + tint * (1 - light))) + over * 300)));
    table[shade] = channel(colour.red, -0.04) | (channel(colour.green, 0) << 8) | (channel(colour.blue, 0.1) << 16);
  }
  shadeTables.set(colour, table);
  return table;
}

function paintTriangle(raster: Raster, a: Corner, b: Corner, c: Corner, shades: Uint32Array): void {
  const area = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  if (Math.abs(area) < 1e-9) return;
  const { width, height, nearness, colours, lefts, rights, touched } = raster;
  const top = Math.max(0, Math.ceil(Math.min(a.y, b.y, c.y)));
  const bottom = Math.min(height - 1, Math.floor(Math.max(a.y, b.y, c.y)));
  if (top > bottom) return;
  const nearX = ((b.near - a.near) * (c.y - a.y) - (c.near - a.near) * (b.y - a.y)) / area;
  const nearY = ((c.near - a.near) * (b.x - a.x) - (b.near - a.near) * (c.x - a.x)) / area;
  const shadeX = ((b.shade - a.shade) * (c.y - a.y) - (c.shade - a.shade) * (b.y - a.y)) / area;
  const shadeY = ((c.shade - a.shade) * (b.x - a.x) - (b.shade - a.shade) * (c.x - a.x)) / area;
  for (let y = top; y <= bottom; y += 1) {
    let from = Infinity;
    let to = -Infinity;
    for (let edge = 0; edge < 3; edge += 1) {
      const p = edge === 0 ? a : edge === 1 ? b : c;
      const q = edge === 0 ? b : edge === 1 ? c : a;
      if (p.y === q.y ? p.y !== y : (y - p.y) * (y - q.y) > 0) continue;
      const x = p.y === q.y ? p.x : p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y);
      const other = p.y === q.y ? q.x : x;
      from = Math.min(from, x, other);
      to = Math.max(to, x, other);
    }
    const left = Math.max(0, Math.ceil(from));
    const right = Math.min(width - 1, Math.floor(to));
    if (left > right) continue;
    if (left < (lefts[y] ?? 0)) lefts[y] = left;
    if (right > (rights[y] ?? 0)) rights[y] = right;
    if (y < touched.top) touched.top = y;
    if (y > touched.bottom) touched.bottom = y;
    let near = a.near + nearX * (left - a.x) + nearY * (y - a.y);
    let shade = a.shade + shadeX * (left - a.x) + shadeY * (y - a.y);
    for (let at = y * width + left, end = y * width + right; at <= end; at += 1) {
      if (near > (nearness[at] ?? 0)) {
        nearness[at] = near;
        colours[at] = shades[shade < 0 ? 0 : shade > 255 ? 255 : shade | 0] ?? 0;
      }
      near += nearX;
      shade += shadeX;
    }
  }
}
