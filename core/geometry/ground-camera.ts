import type { Handedness, View } from '../model/words.ts';
import { wrapAngle } from './angle.ts';
import type { Homography } from './homography.ts';
import { entry } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/** Width and height of the upright picture, pixels. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A camera without distortion, with square pixels and its axis through the middle of the picture, over the ground.
 * `focal` in pixels. `turn`: rows are the camera's axes (x right and y down in the picture, z along the optical axis) in
 * ground coordinates (x target, y ball, z up). `centre` in ground coordinates, mm.
 *
 * For a right-handed player target, ball and up are a left-handed set (the target is on the left of someone who faces the
 * ball), for a left-handed player a right-handed one; the determinant of `turn` is -1 and +1.
 */
export interface Pinhole {
  readonly focal: number;
  readonly turn: Matrix;
  readonly centre: readonly [number, number, number];
}

/** What a pinhole is in numbers that can be said. */
export interface CameraNumbers {
  /** Focal length, pixels, > 0. */
  readonly focal: number;
  /** Where the lens stands, mm from the ground's origin toward the target (x) and toward the ball (y). */
  readonly x: number;
  readonly y: number;
  /** The lens above the ground, mm, > 0. */
  readonly height: number;
  /** Horizontally from the ground's origin, mm, >= 0. */
  readonly distance: number;
  /** Where the optical axis points on the ground: radians in (-pi, pi], 0 = toward the target, pi / 2 = toward the ball. */
  readonly heading: number;
  /** The optical axis against the level: radians in [-pi/2, pi/2], + looks up, - looks down. */
  readonly pitch: number;
  /** How far the true vertical leans in the middle of the picture: radians in (-pi, pi], + to the right of the picture. */
  readonly roll: number;
}

export function numbersOf({ focal, turn, centre: [x, y, height] }: Pinhole): CameraNumbers {
  const axis = (j: number): number => entry(turn, 2, j);
  return {
    focal,
    x,
    y,
    height,
    distance: Math.hypot(x, y),
    heading: Math.atan2(axis(1), axis(0)),
    pitch: Math.atan2(axis(2), Math.hypot(axis(0), axis(1))),
    roll: Math.atan2(entry(turn, 0, 2), -entry(turn, 1, 2)),
  };
}

/** The player for whom target, ball and up lie as this camera sees them; the other hand means that marks are mixed up. */
export function handednessOf({ turn }: Pinhole): Handedness {
  const [a = [], b = [], c = []] = turn;
  return dot(cross(a, b), c) > 0 ? 'left' : 'right';
}

/**
 * How far an axis with this heading is turned out of its view, radians in (-pi, pi]. Down the line: from the target line,
 * + looks over to the ball's side. Face on: from the perpendicular to it, + looks over to the target's side.
 */
export function yawOf(heading: number, view: View): number {
  return wrapAngle(view === 'down-the-line' ? heading : heading + Math.PI / 2);
}

/** Where this camera sees the ground: K [r1 r2 | -R C] (Hartley & Zisserman, Multiple View Geometry, 2nd ed., section 8.1). */
export function groundMatrixOf({ focal, turn, centre }: Pinhole, picture: PictureSize): Matrix {
  const rows = turn.map((row) => [row[0] ?? Number.NaN, row[1] ?? Number.NaN, -dot(row, centre)]);
  const [right = [], down = [], away = []] = rows;
  const inPixels = (row: Vector, middle: number) =>
    row.map((value, j) => focal * value + middle * (away[j] ?? Number.NaN));
  return [inPixels(right, picture.width / 2), inPixels(down, picture.height / 2), away];
}

/**
 * A camera that sees the ground as `homography` says, as far as one can: the map has eight numbers, a camera of this kind
 * seven. `no-horizon`: seen straight from above the focal length cannot be told from the height. `no-focal`: no such camera
 * has this horizon.
 *
 * The horizon gives pitch and roll; its distance from the lens, in pixels, is the scale of the ground along it over the
 * slope of depth (the two conditions on h1 and h2 of Z. Zhang, "A flexible new technique for camera calibration", IEEE PAMI
 * 22 (2000) 1330-1334, in ground axes turned to the camera's). That the axis's vanishing point should lie straight below or
 * above the middle is the eighth number and left out, so that turn and place come out rough: it is where a fit starts.
 */
export function pinholeOfHomography(
  { groundToPicture }: Homography,
  picture: PictureSize,
): Pinhole | 'no-horizon' | 'no-focal' {
  const depth = [0, 1, 2].map((j) => entry(groundToPicture, 2, j));
  const centred = (i: 0 | 1, middle: number) => depth.map((value, j) => entry(groundToPicture, i, j) - middle * value);
  const [right, down] = [centred(0, picture.width / 2), centred(1, picture.height / 2)];
  const slope = Math.hypot(depth[0] ?? Number.NaN, depth[1] ?? Number.NaN);
  // Ground axes that go with the camera: ahead of it, where depth grows fastest, and across, where it stays the same.
  const ahead = { x: (depth[0] ?? Number.NaN) / slope, y: (depth[1] ?? Number.NaN) / slope };
  const onAhead = (row: Vector): number => (row[0] ?? Number.NaN) * ahead.x + (row[1] ?? Number.NaN) * ahead.y;
  const onAcross = (row: Vector): number => (row[1] ?? Number.NaN) * ahead.x - (row[0] ?? Number.NaN) * ahead.y;
  const across = Math.hypot(onAcross(right), onAcross(down));
  const along = { x: onAcross(right) / across, y: onAcross(down) / across };
  /** From the picture's middle square to the horizon, and from the lens to that point of it; pixels. */
  const below = (onAhead(down) * along.x - onAhead(right) * along.y) / slope;
  const reach = across / slope;
  if (!Number.isFinite(below) || !Number.isFinite(reach)) return 'no-horizon';
  if (!(reach > Math.abs(below))) return 'no-focal';
  const focal = Math.sqrt((reach - below) * (reach + below));

  const first = [(-below * along.y) / reach, (below * along.x) / reach, focal / reach];
  const second = [along.x, along.y, 0];
  const origin = [right[2] ?? Number.NaN, down[2] ?? Number.NaN, focal * (depth[2] ?? Number.NaN)].map(
    (value) => value / across,
  );
  const normal = cross(first, second);
  // Either way up would do for the picture; the one that puts the camera above the ground is right.
  const up = dot(normal, origin) < 0 ? normal : normal.map((value) => -value);
  const [forth, aside] = [-dot(first, origin), -dot(second, origin)];
  return {
    focal,
    turn: [0, 1, 2].map((i) => {
      const [one, other] = [first[i] ?? Number.NaN, second[i] ?? Number.NaN];
      return [one * ahead.x - other * ahead.y, one * ahead.y + other * ahead.x, up[i] ?? Number.NaN];
    }),
    centre: [forth * ahead.x - aside * ahead.y, forth * ahead.y + aside * ahead.x, -dot(up, origin)],
  };
}

function dot(a: Vector, b: Vector): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? Number.NaN), 0);
}

function cross(a: Vector, b: Vector): number[] {
  const at = (i: number, j: number): number => (a[i] ?? Number.NaN) * (b[j] ?? Number.NaN);
  return [at(1, 2) - at(2, 1), at(2, 0) - at(0, 2), at(0, 1) - at(1, 0)];
}
