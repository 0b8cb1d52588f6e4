import type { ReadingId } from '../../core/model/reading.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import type { CheckpointFrames, Scenario } from '../../core/scene/scenario.ts';
import { poseOfFrame } from '../../core/scene/truth.ts';
import { degrees, mirror } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import type { Checkpoint } from '../../core/model/words.ts';

/**
 * What readings of the ground truly are in a scene, from where heels and toes stand on it: degrees and cm. null for others.
 * `frames`: the scene's own.
 */
export function trueOnGround(
  scenario: Scenario,
  frames: CheckpointFrames,
  id: ReadingId,
  checkpoint: Checkpoint,
): number | null {
  if (!('ground' in CATALOGUE[id] && CATALOGUE[id].ground)) return null;
  const feet = (name: Checkpoint) => {
    const { leadFoot, trailFoot } = poseOfFrame(scenario, frames[name]);
    const own = (at: Vector) => (scenario.handedness === 'left' ? mirror(at) : at);
    return {
      leadHeel: own(leadFoot.heel),
      leadToe: own(leadFoot.toe),
      trailHeel: own(trailFoot.heel),
      trailToe: own(trailFoot.toe),
    };
  };
  const [here, address] = [feet(checkpoint), feet('address')];
  const apart = (a: Vector, b: Vector) => 100 * Math.hypot(b.x - a.x, b.z - a.z);
  switch (id) {
    case 'lead-flare':
      return degrees(Math.atan2(here.leadToe.x - here.leadHeel.x, here.leadToe.z - here.leadHeel.z));
    case 'trail-flare':
      return degrees(Math.atan2(here.trailHeel.x - here.trailToe.x, here.trailToe.z - here.trailHeel.z));
    case 'heel-slip':
      return apart(address.leadHeel, here.leadHeel);
    case 'toe-slip':
      return apart(address.leadToe, here.leadToe);
    case 'ground-stance':
      return apart(here.trailHeel, here.leadHeel);
    case 'toe-line':
      return degrees(Math.atan2(here.leadToe.z - here.trailToe.z, here.leadToe.x - here.trailToe.x));
    default:
      return null;
  }
}
