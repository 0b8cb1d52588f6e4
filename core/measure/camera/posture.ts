import type { BodyPointId } from '../../model/body-points.ts';
import type { Checkpoint } from '../../model/words.ts';

/** Where a point lies on the ground plan, metres from the middle between the ankles: `target` toward the target, `ball` toward the ball. */
export interface PlanPlace {
  readonly target: number;
  readonly ball: number;
  /** One standard deviation of either, from player to player. */
  readonly u: number;
}

/** How far shoulders and hips have turned away from the target, degrees; minus is open. */
interface Turns {
  readonly shoulders: number;
  readonly hips: number;
  /** Middle of the shoulders and of the hips, and the head. */
  readonly chest: readonly [number, number];
  readonly pelvis: readonly [number, number];
  readonly head: readonly [number, number];
  readonly grip: readonly [number, number];
  readonly clubhead: readonly [number, number];
}

/**
 * A swing of nobody, rough on purpose: shoulders turned by 90 and hips by 45 degrees at the top and open by 20 and 35 at impact
 * (common practice; 87 and 55 at the top in M. McTeigue et al., Science and Golf II, 1994, from memory), a player bent by 35
 * degrees from the hips, shoulders 38 cm and hips 18 cm apart, a club of 95 cm. Only depths are taken from it, each with its
 * spread; no reading is held against it.
 */
const SWING: Readonly<Record<Checkpoint, Turns>> = {
  address: turns(3, 0, [-0.02, 0.26], [0, -0.1], [-0.03, 0.36], [0.05, 0.42], [0, 0.8]),
  takeaway: turns(30, 12, [-0.03, 0.26], [0, -0.1], [-0.04, 0.36], [-0.35, 0.42], [-1.25, 0.45]),
  'lead-arm-level': turns(65, 30, [-0.04, 0.26], [0, -0.1], [-0.05, 0.36], [-0.65, 0.25], [-0.6, -0.2]),
  top: turns(88, 45, [-0.04, 0.25], [0, -0.1], [-0.05, 0.36], [-0.45, -0.05], [0.2, -0.2]),
  'lead-arm-level-down': turns(45, 10, [-0.02, 0.25], [0.04, -0.08], [-0.05, 0.36], [-0.6, 0.15], [-1.1, -0.3]),
  impact: turns(-20, -35, [0, 0.25], [0.08, -0.06], [-0.04, 0.36], [0.08, 0.38], [0.02, 0.8]),
  through: turns(-50, -60, [0.04, 0.24], [0.12, -0.05], [0, 0.34], [0.6, 0.25], [1.3, 0.3]),
  finish: turns(-100, -85, [0.14, 0.12], [0.17, 0], [0.18, 0.12], [0.1, -0.1], [-0.5, -0.3]),
};

const HALF_SHOULDERS = 0.19;
const HALF_HIPS = 0.09;
/** The tailbone lies behind the middle of the hips. */
const TAILBONE_BEHIND = 0.1;
const HALF_STANCE = 0.22;

/** From player to player: joints by a hand's breadth, less where the feet hold them; hands and club more, where they are free. */
const SPREAD = { body: 0.07, legs: 0.05, feet: 0.03, atBall: 0.06, free: 0.2 };

function turns(
  shoulders: number,
  hips: number,
  chest: Turns['chest'],
  pelvis: Turns['pelvis'],
  head: Turns['head'],
  grip: Turns['grip'],
  clubhead: Turns['clubhead'],
): Turns {
  return { shoulders, hips, chest, pelvis, head, grip, clubhead };
}

/** Where a point of anybody's swing lies, told from nothing but its name and the checkpoint. */
export function usualPlace(point: BodyPointId, checkpoint: Checkpoint): PlanPlace {
  const swing = SWING[checkpoint];
  const side = point.startsWith('lead-') ? 1 : -1;
  const at = ([target, ball]: readonly [number, number], u: number): PlanPlace => ({ target, ball, u });
  switch (point) {
    case 'head-centre':
      return at(swing.head, SPREAD.body);
    case 'neck-base':
      return at(swing.chest, SPREAD.body);
    case 'lead-shoulder':
    case 'trail-shoulder':
      return at(turned(swing.chest, side * HALF_SHOULDERS, swing.shoulders), SPREAD.body);
    case 'lead-hip':
    case 'trail-hip':
      return at(turned(swing.pelvis, side * HALF_HIPS, swing.hips), SPREAD.legs);
    case 'tailbone':
      return at(behind(swing.pelvis, TAILBONE_BEHIND, swing.hips), SPREAD.body);
    case 'lead-elbow':
    case 'trail-elbow':
      return at(middle(turned(swing.chest, side * HALF_SHOULDERS, swing.shoulders), swing.grip), 2 * SPREAD.body);
    case 'lead-knee':
    case 'trail-knee':
      return at([side * HALF_STANCE * 0.9, 0.08], SPREAD.legs);
    case 'lead-ankle':
    case 'trail-ankle':
      return at([side * HALF_STANCE, 0], SPREAD.feet);
    case 'lead-heel':
    case 'trail-heel':
      return at([side * HALF_STANCE, -0.06], SPREAD.feet);
    case 'lead-toe':
    case 'trail-toe':
      return at([side * (HALF_STANCE + 0.06), 0.2], SPREAD.feet);
    case 'ball':
      return at(SWING.address.clubhead, SPREAD.atBall);
    case 'grip-end':
    case 'clubhead': {
      const isAtBall = checkpoint === 'address' || checkpoint === 'impact';
      return at(point === 'clubhead' ? swing.clubhead : swing.grip, isAtBall ? SPREAD.atBall : SPREAD.free);
    }
  }
}

/** A place `out` along the line that points to the target at address and has turned since: backward is toward the ball. */
function turned([target, ball]: readonly [number, number], out: number, degrees: number): readonly [number, number] {
  const by = (degrees * Math.PI) / 180;
  return [target + out * Math.cos(by), ball + out * Math.sin(by)];
}

/** A place on the far side of who looks square to that line. */
function behind([target, ball]: readonly [number, number], by: number, degrees: number): readonly [number, number] {
  const turn = (degrees * Math.PI) / 180;
  return [target + by * Math.sin(turn), ball - by * Math.cos(turn)];
}

function middle(a: readonly [number, number], b: readonly [number, number]): readonly [number, number] {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}
