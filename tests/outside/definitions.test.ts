import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { isReadAt } from '../../core/measure/catalogue/where-read.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { ReadingId, ReadingKey } from '../../core/model/reading.ts';
import { CHECKPOINTS, VIEWS } from '../../core/model/words.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { pointsInWorld, poseOfFrame } from '../../core/scene/truth.ts';
import { add, degrees, dot, length, scale, subtract } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import { trueReadings } from '../support/true-readings.ts';

/**
 * What a reading means, against the body in space itself and not only against how it looks along the view's line: knees by the
 * angle of thigh and shank, tilts by the rise of a line over its own length, ratios by lengths in space.
 */
const SCENES = (['then', 'now'] as const).map((which) => demoScenario(which));

/** What the shipped goals take as no difference: more than that off the body and a reading misleads. */
const MOST_DEGREES = 5;
const MOST_RATIO = 0.05;
const MOST_CM = 2.5;

type Body = Readonly<Record<BodyPointId, Vector>>;
const bodyAt = (scenario: Scenario, checkpoint: Checkpoint): Body =>
  pointsInWorld(poseOfFrame(scenario, checkpointFrames(scenario)[checkpoint]));

const bend = (side: 'lead' | 'trail') => (body: Body) => {
  const knee = body[`${side}-knee`];
  const [thigh, shank] = [subtract(body[`${side}-hip`], knee), subtract(body[`${side}-ankle`], knee)];
  return degrees(Math.acos(dot(thigh, shank) / (length(thigh) * length(shank))));
};
const tilt = (what: 'shoulder' | 'hip') => (body: Body) => {
  const line = subtract(body[`lead-${what}`], body[`trail-${what}`]);
  return degrees(Math.asin(line.y / length(line)));
};
const ratio = (a: BodyPointId, b: BodyPointId) => (body: Body, address: Body) =>
  length(subtract(body[a], body[b])) / length(subtract(address[a], address[b]));
const hipCentre = (body: Body) => scale(add(body['lead-hip'], body['trail-hip']), 0.5);

const IN_SPACE: readonly (readonly [ReadingId, number, (body: Body, address: Body) => number])[] = [
  ['lead-knee', MOST_DEGREES, bend('lead')],
  ['trail-knee', MOST_DEGREES, bend('trail')],
  ['shoulder-line', MOST_DEGREES, tilt('shoulder')],
  ['hip-line', MOST_DEGREES, tilt('hip')],
  ['elbow-gap', MOST_RATIO, ratio('lead-elbow', 'trail-elbow')],
  ['club-radius', MOST_RATIO, ratio('lead-shoulder', 'clubhead')],
  ['hip-depth', MOST_CM, (body, address) => 100 * (hipCentre(body).z - hipCentre(address).z)],
  ['upper-centre-shift', MOST_CM, (body, address) => 100 * (body['neck-base'].x - address['neck-base'].x)],
];

/** How far what is seen lies off the body, in the worse of two scenes. */
function off(key: ReadingKey, inSpace: (body: Body, address: Body) => number): number {
  return Math.max(
    ...SCENES.map((scenario) => {
      const seen = trueReadings(scenario)(key) ?? Number.NaN;
      return Math.abs(seen - inSpace(bodyAt(scenario, key.checkpoint), bodyAt(scenario, 'address')));
    }),
  );
}

describe.each(IN_SPACE)('%s', (id, most, inSpace) => {
  const places = VIEWS.flatMap((view) => CHECKPOINTS.map((checkpoint) => ({ view, checkpoint })));
  const keys = places.map((place): ReadingKey => ({ id, aspect: 'value', ...place }));

  it('is true of the body wherever it is read', () => {
    const wrong = keys.filter((key) => isReadAt(key) && !(off(key, inSpace) <= most));
    expect(wrong.map(({ view, checkpoint }) => `${view}, ${checkpoint}`)).toEqual([]);
  });
});

it.each([
  ['a knee face on', 'trail-knee', 'face-on', 'address', bend('trail')],
  ['shoulders face on at top', 'shoulder-line', 'face-on', 'top', tilt('shoulder')],
  ['shoulders down the line at impact', 'shoulder-line', 'down-the-line', 'impact', tilt('shoulder')],
  ['hips face on at the finish', 'hip-line', 'face-on', 'finish', tilt('hip')],
] as const)('%s is not read: it is off by more than all that counts as no difference', (_, id, view, at, inSpace) => {
  const key: ReadingKey = { id, aspect: 'value', view: view, checkpoint: at };
  expect(isReadAt(key)).toBe(false);
  expect(off(key, inSpace)).toBeGreaterThan(MOST_DEGREES);
});

it('the middle of the shoulders and the tailbone go along with a turn, which is why neither is read', () => {
  const [scenario] = SCENES;
  if (scenario === undefined) throw new Error('two scenes');
  const [address, top, finish] = (['address', 'top', 'finish'] as const).map((name) => bodyAt(scenario, name));
  if (address === undefined || top === undefined || finish === undefined) throw new Error('three bodies');
  const between = (body: Body) => (body['lead-shoulder'].x + body['trail-shoulder'].x) / 2;
  const neck = top['neck-base'].x - address['neck-base'].x;
  expect(Math.abs(between(top) - between(address) - neck)).toBeGreaterThan(MOST_CM / 100);
  const pelvis = hipCentre(finish).z - hipCentre(address).z;
  expect(Math.abs(finish.tailbone.z - address.tailbone.z - pelvis)).toBeGreaterThan(MOST_CM / 100);
});
