import { wrapAngle } from './angle.ts';
import type { Figure } from './figure.ts';
import type { PicturePoint } from '../model/mark.ts';

/** Where the part that a reading is of should be, on the picture. */
export interface GoalFigure {
  /** One at each limit; of an angle whose limits are two, one in the middle between them. */
  readonly lines: readonly { readonly a: PicturePoint; readonly b: PicturePoint }[];
  /** All that is on target, from `start` clockwise on screen to `end`, radians from +x; null where it has no width. */
  readonly wedge: {
    readonly centre: PicturePoint;
    readonly radius: number;
    readonly start: number;
    readonly end: number;
  } | null;
}

/** Limits of a goal, one of them or both, in the reading's unit; angles in radians. */
export interface GoalLimits {
  readonly from: number | null;
  readonly to: number | null;
}

/** How far a goal without a limit on one side is shown beyond its other one, radians: enough to see which side is meant. */
const OPEN = (15 * Math.PI) / 180;
/** What is drawn and what was read differ by a camera that leans or a lens that bends; beyond this they are not the same angle. */
const SAME_ANGLE = (6 * Math.PI) / 180;
/** Pixels: shorter than this, a length says nothing of its direction. */
const SHORTEST = 4;
/** The bar at the goal of a length, as a part of that length, and at least so many pixels, each way. */
const BAR = 0.3;
const SHORTEST_BAR = 12;

/**
 * The goal of an angle: the moving arm (`b` of the angle) turned about the vertex by as much as the reading misses. The gap
 * between the arm and the goal is the miss. null where the parts have no angle, or one that is not the reading's.
 */
export function goalOfAngle(parts: readonly Figure[], value: number, { from, to }: GoalLimits): GoalFigure | null {
  const angle = parts.find((part) => part.kind === 'angle');
  if (angle === undefined || (from === null && to === null)) return null;
  const { vertex, a, b } = angle;
  const [toA, toB] = [directionFrom(vertex, a), directionFrom(vertex, b)];
  const turn = wrapAngle(toB - toA);
  const sense = senseOf(Math.abs(turn), value);
  if (sense === null || turn === 0) return null;
  const onScreen = (goal: number): number => toB + Math.sign(turn) * sense * (goal - value);
  const [low, high] = [from ?? (to ?? 0) - OPEN, to ?? (from ?? 0) + OPEN];
  const { least, most } = extentOf(parts, vertex, toB);
  const place = (direction: number, far: number): PicturePoint => ({
    x: vertex.x + far * Math.cos(direction),
    y: vertex.y + far * Math.sin(direction),
  });
  const lineAt = (goal: number) => ({ a: place(onScreen(goal), least), b: place(onScreen(goal), most) });
  // The longer end of a line that crosses the vertex shows most.
  const isBack = -least > most;
  const ends = [onScreen(low), onScreen(high)].map((direction) => (isBack ? direction + Math.PI : direction));
  const [start, end] = [Math.min(...ends), Math.max(...ends)];
  const shown = from !== null && to !== null ? (from + to) / 2 : (from ?? to ?? 0);
  return {
    lines: [lineAt(shown)],
    wedge: end > start ? { centre: vertex, radius: isBack ? -least : most, start, end } : null,
  };
}

/**
 * The goal of a length: bars across its direction where its end should be. null where the length is too short to have a
 * direction, or its value is 0.
 */
export function goalOfLength(parts: readonly Figure[], value: number, { from, to }: GoalLimits): GoalFigure | null {
  const length = parts.find((part) => part.kind === 'length');
  if (length === undefined || value === 0) return null;
  const { a, b } = length;
  const way = { x: b.x - a.x, y: b.y - a.y };
  const long = Math.hypot(way.x, way.y);
  if (long < SHORTEST) return null;
  const half = Math.max(SHORTEST_BAR, BAR * long);
  const across = { x: (-way.y / long) * half, y: (way.x / long) * half };
  const limits = [from, to].filter((limit) => limit !== null);
  return {
    lines: [...new Set(limits)].map((limit) => {
      const end = { x: a.x + (way.x * limit) / value, y: a.y + (way.y * limit) / value };
      return { a: { x: end.x - across.x, y: end.y - across.y }, b: { x: end.x + across.x, y: end.y + across.y } };
    }),
    wedge: null,
  };
}

/** By how much the drawn angle (0 to pi) grows with the value: 1 or -1; null where they are not the same angle. */
function senseOf(drawn: number, value: number): 1 | -1 | null {
  const isSame = (other: number): boolean => Math.abs(drawn - other) <= SAME_ANGLE;
  if (isSame(value)) return 1;
  return isSame(-value) || isSame(Math.PI - value) ? -1 : null;
}

/** How far the line that lies along a direction reaches from the vertex, both ways; `least` <= 0 < `most`. */
function extentOf(parts: readonly Figure[], vertex: PicturePoint, direction: number) {
  const [x, y] = [Math.cos(direction), Math.sin(direction)];
  const along = (at: PicturePoint): number => (at.x - vertex.x) * x + (at.y - vertex.y) * y;
  const beside = (at: PicturePoint): number => Math.abs((at.y - vertex.y) * x - (at.x - vertex.x) * y);
  const on = parts.flatMap((part) => (part.kind === 'line' && beside(part.a) < 1 && beside(part.b) < 1 ? [part] : []));
  const reached = on.flatMap(({ a, b }) => [along(a), along(b)]);
  const angle = parts.find((part) => part.kind === 'angle');
  const arm = angle === undefined ? 1 : along(angle.b);
  return reached.length === 0
    ? { least: 0, most: arm }
    : { least: Math.min(0, ...reached), most: Math.max(...reached) };
}

function directionFrom(start: PicturePoint, end: PicturePoint): number {
  return Math.atan2(end.y - start.y, end.x - start.x);
}
