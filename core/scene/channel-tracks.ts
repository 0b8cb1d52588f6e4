import { headAtBall, leadHandFor, planeAnglesOf } from './club.ts';
import { lowerAndTrunk } from './body-on-feet.ts';
import { CHANNELS } from './scenario.ts';
import type { Channel, Scenario } from './scenario.ts';
import { trackThrough } from './track.ts';
import type { Track } from './track.ts';
import { length, radians, scale, subtract } from './vector.ts';

/** Reads one channel: metres, radians, or a share. */
export type ChannelValues = (channel: Channel) => number;

/** These channels hold metres or shares; all others hold degrees in the scenario and radians from here on. */
const NOT_ANGLES: ReadonlySet<Channel> = new Set(['hipX', 'hipZ', 'neckX', 'neckZ', 'armReach']);

/**
 * How every channel of a scenario runs over time. At address and at impact the lead arm is not taken from the scenario but
 * set so that the clubhead stands at the ball. Throws when that is out of reach of the arm.
 */
export function channelTracks(scenario: Scenario): (seconds: number) => ChannelValues {
  const keys = new Map<Channel, number[]>();
  for (const channel of CHANNELS) {
    const angle = !NOT_ANGLES.has(channel);
    keys.set(
      channel,
      scenario.motion[channel].map((value) => (angle ? radians(value) : value)),
    );
  }
  holdClubAtBall(scenario, keys, scenario.addressKey, scenario.club.addressGap);
  holdClubAtBall(scenario, keys, scenario.impactKey, scenario.club.contactGap);

  const times = scenario.keyFrames.map((frame) => frame / scenario.framesPerSecond);
  const tracks = new Map<Channel, Track>();
  for (const [channel, values] of keys) tracks.set(channel, trackThrough(times, values));
  return (seconds) => (channel) => tracks.get(channel)?.(seconds) ?? 0;
}

/** As far as the shoulder blade may be asked to give, metres. */
const MAX_DRAW = 0.05;

function holdClubAtBall(scenario: Scenario, keys: ReadonlyMap<Channel, number[]>, key: number, gap: number): void {
  const values: ChannelValues = (channel) => keys.get(channel)?.[key] ?? 0;
  const { trunk } = lowerAndTrunk(scenario, values, keys.get('leadFlare')?.[0] ?? 0, keys.get('trailFlare')?.[0] ?? 0);
  const turn = { plane: values('shaftPlane'), angle: values('shaftAngle'), off: values('shaftOff') };
  const arm = subtract(leadHandFor(scenario, headAtBall(scenario, gap), turn), trunk.leadArmRoot);
  const reach = length(arm);
  const full = scenario.body.upperArm + scenario.body.forearm + scenario.body.hand;
  if (reach > full + MAX_DRAW)
    throw new Error(`channelTracks: the ball is ${reach.toFixed(3)} m away from the lead arm's root, out of reach`);
  const angles = planeAnglesOf(radians(scenario.armPlane), scale(arm, 1 / reach));
  const write = (channel: Channel, value: number): void => {
    const list = keys.get(channel);
    if (list !== undefined) list[key] = value;
  };
  write('armAngle', angles.angle);
  write('armOff', angles.off);
  write('armReach', reach / full);
}
