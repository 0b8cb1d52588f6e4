import { planeAnglesOf } from './club.ts';
import type { CheckpointFrames, Scenario } from './scenario.ts';
import { poseOfFrame } from './truth.ts';
import { mirror, radians } from './vector.ts';

/**
 * The frame of every checkpoint, found from the geometry of the motion alone:
 * - address: the last frame on which the player still stands as on the first.
 * - takeaway: the first frame on the way back with the shaft level, or the clubhead above the butt of the grip.
 * - lead arm level: the first frame on the way back with the lead hand as high as the lead shoulder.
 * - top: the frame on which the shaft has turned farthest back.
 * - lead arm level down: the first frame after it with the lead hand below the lead shoulder.
 * - impact: the last frame with the ball at rest; the clubhead is at the ball.
 * - through: the first frame after impact with the shaft level, or the clubhead above the butt of the grip.
 * - finish: the first frame from which on the player stands still.
 */
export function checkpointFrames(scenario: Scenario): CheckpointFrames {
  const states = statesOf(scenario);
  const start = states[0];
  const end = states[states.length - 1];
  const first = (from: number, found: (state: State) => boolean, name: string): number => {
    const index = states.findIndex((state, at) => at >= from && found(state));
    if (index < 0) throw new Error(`checkpointFrames: the motion has no ${name}`);
    return index;
  };
  const address = first(0, (state) => state.stand !== start?.stand, 'start') - 1;
  const takeaway = first(address, (state) => state.headOverGrip >= 0, 'takeaway');
  const level = first(takeaway, (state) => state.handOverShoulder >= 0, 'lead arm level');
  const down = first(level, (state) => state.handOverShoulder < 0, 'lead arm level on the way down');
  let top = level;
  for (let at = level; at < down; at += 1) if ((states[at]?.turned ?? 0) > (states[top]?.turned ?? 0)) top = at;
  const impact = first(down, (state) => state.ballX !== start?.ballX, 'struck ball') - 1;
  const through = first(impact, (state) => state.headOverGrip >= 0, 'follow-through');
  const finish = first(through, (state) => state.stand === end?.stand, 'finish');
  return {
    address,
    takeaway,
    'lead-arm-level': level,
    top,
    'lead-arm-level-down': down,
    impact,
    through,
    finish,
  };
}

interface State {
  /** Everything but the ball, written out: equal when and only when the player stands the same. */
  readonly stand: string;
  readonly headOverGrip: number;
  readonly handOverShoulder: number;
  /** Turn of the shaft since address in the plane it then lay in, radians, counted on past half a turn. */
  readonly turned: number;
  readonly ballX: number;
}

function statesOf(scenario: Scenario): readonly State[] {
  const plane = radians(scenario.motion.shaftPlane[scenario.addressKey] ?? 0);
  const states: State[] = [];
  for (let frame = 0; frame < scenario.frameCount; frame += 1) {
    const pose = poseOfFrame(scenario, frame);
    const { club, trunk } = pose;
    const shaft = scenario.handedness === 'left' ? mirror(club.shaft) : club.shaft;
    const angle = planeAnglesOf(plane, shaft).angle;
    const before = states[states.length - 1]?.turned ?? angle;
    states.push({
      stand: JSON.stringify({ ...pose, ball: null }),
      headOverGrip: club.head.y - club.gripEnd.y,
      handOverShoulder: club.leadHand.y - trunk.leadShoulder.y,
      turned: angle + 2 * Math.PI * Math.round((before - angle) / (2 * Math.PI)),
      ballX: pose.ball.x,
    });
  }
  return states;
}
