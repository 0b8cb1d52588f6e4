import type { ChannelValues } from './channel-tracks.ts';
import { footAt, hipsOnLegs } from './legs.ts';
import type { Foot, Hips } from './legs.ts';
import type { Scenario } from './scenario.ts';
import { trunkOn } from './trunk.ts';
import type { Trunk } from './trunk.ts';

export interface LowerAndTrunk {
  readonly leadFoot: Foot;
  readonly trailFoot: Foot;
  readonly hips: Hips;
  readonly trunk: Trunk;
}

/** Builds the player from the ground up to the head, without arms. Flares at address in radians. */
export function lowerAndTrunk(
  scenario: Scenario,
  value: ChannelValues,
  leadStanding: number,
  trailStanding: number,
): LowerAndTrunk {
  const leadFoot = footAt(scenario, 1, leadStanding, value('leadFlare'), 0);
  const trailFoot = footAt(scenario, -1, trailStanding, value('trailFlare'), value('trailHeel'));
  const hips = hipsOnLegs(
    scenario,
    { x: value('hipX'), z: value('hipZ'), turn: value('hipTurn') },
    { lead: leadFoot.ankle, trail: trailFoot.ankle },
    { lead: value('leadKnee'), trail: value('trailKnee') },
  );
  const trunk = trunkOn(scenario, hips, {
    neckX: value('neckX'),
    neckZ: value('neckZ'),
    headLean: value('headLean'),
    headSide: value('headSide'),
    faceTurn: value('faceTurn'),
    faceDown: value('faceDown'),
    shoulderTurn: value('shoulderTurn'),
    axisLean: value('axisLean'),
    axisSide: value('axisSide'),
  });
  return { leadFoot, trailFoot, hips, trunk };
}
