import type { Scenario } from './scenario.ts';
import { add, along, cross, dot, scale, squareTo, vector } from './vector.ts';
import type { Vector } from './vector.ts';

/**
 * A direction told in a plane that holds the target line and rises by `incline` toward the player: `angle` 0 points down
 * the plane, a quarter turn away from the target, half a turn up the plane, three quarters at the target; `off` lifts it
 * off the plane, + up. All in radians.
 */
export function inPlane(incline: number, angle: number, off: number): Vector {
  const flat = add(scale(upPlane(incline), -Math.cos(angle)), vector(-Math.sin(angle), 0, 0));
  return add(scale(flat, Math.cos(off)), scale(offPlane(incline), Math.sin(off)));
}

/** The `angle` and `off` of a unit direction in such a plane; angle within -pi..pi. Undoes `inPlane`. */
export function planeAnglesOf(incline: number, direction: Vector): { readonly angle: number; readonly off: number } {
  return {
    angle: Math.atan2(-direction.x, -dot(direction, upPlane(incline))),
    off: Math.asin(Math.max(-1, Math.min(1, dot(direction, offPlane(incline))))),
  };
}

function upPlane(incline: number): Vector {
  return vector(0, Math.sin(incline), -Math.cos(incline));
}

function offPlane(incline: number): Vector {
  return vector(0, Math.cos(incline), Math.sin(incline));
}

export interface Club {
  readonly gripEnd: Vector;
  readonly head: Vector;
  readonly leadHand: Vector;
  readonly trailHand: Vector;
  /** Unit vectors: down the shaft, where the face points, from heel to toe square to the shaft. */
  readonly shaft: Vector;
  readonly face: Vector;
  readonly toe: Vector;
}

/** The club held in the lead hand, with its shaft turned as given; `faceTurn` radians, + open. */
export function clubIn(
  scenario: Scenario,
  leadHand: Vector,
  turn: { readonly plane: number; readonly angle: number; readonly off: number; readonly face: number },
): Club {
  const { length, leadHand: leadAt, trailHand: trailAt } = scenario.club;
  const shaft = inPlane(turn.plane, turn.angle, turn.off);
  const gripEnd = along(leadHand, shaft, -leadAt);
  const square = squareTo(shaft, offPlane(turn.plane));
  const ahead = cross(square, shaft);
  const toe = add(scale(square, Math.cos(turn.face)), scale(ahead, -Math.sin(turn.face)));
  return {
    gripEnd,
    head: along(gripEnd, shaft, length),
    leadHand,
    trailHand: along(gripEnd, shaft, trailAt),
    shaft,
    face: cross(toe, shaft),
    toe,
  };
}

/** Where the lead hand must be for the clubhead's middle to be at `head` with the shaft turned as given. */
export function leadHandFor(
  scenario: Scenario,
  head: Vector,
  turn: { readonly plane: number; readonly angle: number; readonly off: number },
): Vector {
  return along(head, inPlane(turn.plane, turn.angle, turn.off), scenario.club.leadHand - scenario.club.length);
}

/** Where the middle of the clubhead stands at address, and at the instant it meets the ball. */
export function headAtBall(scenario: Scenario, gap: number): Vector {
  return vector(scenario.ball.x - gap, scenario.club.soledHeight, scenario.ball.z);
}
