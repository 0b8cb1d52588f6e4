import type { PicturePoint } from '../model/mark.ts';
import { cross, dot, scale, subtract, unit, UP } from './vector.ts';
import type { Vector } from './vector.ts';

type Row = readonly [number, number, number];

/**
 * A pinhole camera without distortion. Camera axes: x right and y down in the picture, z away from the lens.
 * `intrinsics` is K, upper triangular, in pixels; a world point X lies at K R (X - centre). The rows of `turn` are the
 * camera's axes in the world. (Hartley & Zisserman, Multiple View Geometry, chapter 6.)
 */
export interface Camera {
  readonly intrinsics: {
    readonly fx: number;
    readonly skew: number;
    readonly cx: number;
    readonly fy: number;
    readonly cy: number;
  };
  readonly turn: readonly [Vector, Vector, Vector];
  readonly centre: Vector;
}

/** Where a camera stands and looks, in metres, and its focal length in pixels. */
export interface CameraPlace {
  readonly from: Vector;
  readonly to: Vector;
  readonly focal: number;
}

/** A level camera at `from` that looks at `to`, with the middle of a `width` x `height` picture on its axis. */
export function cameraAimedAt(place: CameraPlace, width: number, height: number): Camera {
  const forward = unit(subtract(place.to, place.from));
  const right = unit(cross(forward, UP));
  return {
    intrinsics: { fx: place.focal, skew: 0, cx: width / 2, fy: place.focal, cy: height / 2 },
    turn: [right, cross(forward, right), forward],
    centre: place.from,
  };
}

/** A world point seen by the camera: place in the picture, and depth along the axis in metres. */
export interface Seen extends PicturePoint {
  readonly depth: number;
}

/** Null for a point that is not in front of the lens. May lie outside the picture. */
export function project(camera: Camera, point: Vector): Seen | null {
  const offset = subtract(point, camera.centre);
  const depth = dot(camera.turn[2], offset);
  if (!(depth > 1e-6)) return null;
  const x = dot(camera.turn[0], offset) / depth;
  const y = dot(camera.turn[1], offset) / depth;
  const { fx, skew, cx, fy, cy } = camera.intrinsics;
  return { x: fx * x + skew * y + cx, y: fy * y + cy, depth };
}

/** The 3 x 4 matrix P = K [R | -R centre] that maps homogeneous world points to homogeneous picture points. */
export function matrixOf(camera: Camera): readonly [readonly number[], readonly number[], readonly number[]] {
  const { fx, skew, cx, fy, cy } = camera.intrinsics;
  const rows: readonly Row[] = [
    [fx, skew, cx],
    [0, fy, cy],
    [0, 0, 1],
  ];
  const line = (row: Row): readonly number[] => {
    const [a, b, c] = camera.turn;
    const world = [scale(a, row[0]), scale(b, row[1]), scale(c, row[2])];
    const x = world.reduce((sum, part) => sum + part.x, 0);
    const y = world.reduce((sum, part) => sum + part.y, 0);
    const z = world.reduce((sum, part) => sum + part.z, 0);
    return [x, y, z, -dot({ x, y, z }, camera.centre)];
  };
  return [line(rows[0] ?? [0, 0, 0]), line(rows[1] ?? [0, 0, 0]), line(rows[2] ?? [0, 0, 0])];
}
