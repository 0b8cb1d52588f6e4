import type { PicturePoint } from '../model/mark.ts';
import type { Handedness } from '../model/words.ts';

/**
 * A place as the player has it, in pixels: `along` grows toward the target (face on) or toward the ball (down the
 * line), `up` grows away from the ground. Formulas work on these only, so that a sign means the same thing for right-
 * and left-handers; pictures are turned into them once, by `toSwing`.
 */
export interface SwingPoint {
  readonly along: number;
  readonly up: number;
}

/** How a picture lies against the player. */
export interface Stance {
  /** 1 for a right-handed player, -1 for a left-handed one: mirrors the picture left to right. */
  readonly side: 1 | -1;
  /** Radians by which the true vertical leans toward +along in the (mirrored) picture; 0 = the picture's own. */
  readonly tilt: number;
}

/** The factor that mirrors a left-hander's picture. */
export function sideOf(handedness: Handedness): 1 | -1 {
  return handedness === 'right' ? 1 : -1;
}

/** Mirrors and turns a picture point; the origin stays the picture's upper left corner, scale stays 1. */
export function toSwing(point: PicturePoint, stance: Stance): SwingPoint {
  return swingFrom(stance)(point);
}

/** The same for many points of one picture. */
export function swingFrom({ side, tilt }: Stance): (point: PicturePoint) => SwingPoint {
  if (tilt === 0) return ({ x, y }) => ({ along: side * x, up: -y });
  const [cos, sin] = [Math.cos(tilt), Math.sin(tilt)];
  return ({ x, y }) => ({ along: side * x * cos + y * sin, up: side * x * sin - y * cos });
}

/** Undoes `toSwing`: where a place as the player has it lies in the picture. */
export function fromSwing(point: SwingPoint, stance: Stance): PicturePoint {
  const cos = Math.cos(stance.tilt);
  const sin = Math.sin(stance.tilt);
  const along = point.along * cos + point.up * sin;
  const up = point.up * cos - point.along * sin;
  return { x: stance.side * along, y: -up };
}

/** `to` - `from`, with negative zero made zero, so that atan2 never jumps from pi to -pi because of it. */
export function offset(from: SwingPoint, to: SwingPoint): SwingPoint {
  return { along: to.along - from.along + 0, up: to.up - from.up + 0 };
}

/** Pixels, >= 0. */
export function distance(a: SwingPoint, b: SwingPoint): number {
  return Math.hypot(b.along - a.along, b.up - a.up);
}

export function midpoint(a: SwingPoint, b: SwingPoint): SwingPoint {
  return { along: (a.along + b.along) / 2, up: (a.up + b.up) / 2 };
}
