import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import { ASSUMED_SET_UP } from '../../core/measure/camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import type { MeasuredReading, Reading, ReadingId } from '../../core/model/reading.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { degrees } from '../../core/scene/vector.ts';
import { ON_LINE } from '../support/off-camera.ts';
import type { OffBy } from '../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../support/off-scene.ts';
import { trueReadings } from '../support/true-readings.ts';
import { within } from '../support/within.ts';

/**
 * The head against its box: a body in space, exactly marked, its cameras off their line. At the finish the head has gone 24 cm
 * back, so that a camera that is turned by 6 degrees sees it 2.5 cm beside where it is. Where the camera stands does nothing to
 * the head.
 */
const SCENARIO = demoScenario('then');
const READ = [
  ['head-centre-box', 'top'],
  ['head-centre-box', 'impact'],
  ['head-centre-box', 'finish'],
  ['head-box', 'top'],
  ['head-box', 'through'],
  ['head-box', 'finish'],
] as const satisfies readonly (readonly [ReadingId, Checkpoint])[];

interface Told {
  readonly ground: boolean;
  readonly plumb: boolean;
}

const known = new Map<string, readonly Reading[]>();

/** Everything that is read by that camera face on; a camera is asked for many readings. */
function readBy(off: Partial<OffBy>, { ground, plumb }: Told): readonly Reading[] {
  const name = JSON.stringify([off, ground, plumb]);
  const readings = known.get(name) ?? readAnew(off, { ground, plumb });
  known.set(name, readings);
  return readings;
}

function readAnew(off: Partial<OffBy>, { ground, plumb }: Told): readonly Reading[] {
  const cameras = { 'face-on': { ...ON_LINE, ...off }, 'down-the-line': ON_LINE };
  // The scene's stick lies 10 cm before the ankles, for whose plane it stands.
  const stickNearer = { 'face-on': -0.1, 'down-the-line': 0 };
  const marking = { ...ALL_MARKS, knownLengths: ['player'] as const, path: false, stickNearer, ground, plumb };
  const { seen } = offScene(SCENARIO, cameras, marking);
  return readSwing(seen, ASSUMED_PLACING);
}

function headReading(
  [id, checkpoint]: readonly [ReadingId, Checkpoint],
  off: Partial<OffBy>,
  told: Told,
): MeasuredReading {
  const found = readBy(off, told).find((each) => each.id === id && each.checkpoint === checkpoint);
  if (found?.state !== 'measured') throw new Error(`${id} at ${checkpoint} was not read`);
  return found;
}

const ALL_TOLD: Told = { ground: true, plumb: true };

describe.each(READ)('%s at %s', (...which) => {
  const straight = headReading(which, {}, ALL_TOLD);

  it.each([
    ['turned', { yaw: -6 }],
    ['turned the other way', { yaw: 6 }],
    ['rolled', { roll: 2 }],
    ['higher, looking down', { above: 0.3 }],
    ['nearer', { nearer: 1.4 }],
  ] as const)('is what it was, by a camera %s, which its marks tell', (_, off) => {
    within(headReading(which, off, ALL_TOLD).value, straight.value, 0.25);
  });

  it('is moved by a camera that nothing tells as far as it says', () => {
    const untold: Told = { ground: false, plumb: false };
    const { shared } = headReading(which, {}, untold);
    for (const [name, angle, moved] of [
      ['camera yaw', 'yaw', ASSUMED_SET_UP.yaw],
      ['camera roll', 'roll', ASSUMED_SET_UP.roll],
    ] as const) {
      const by = degrees(moved);
      const [ahead, behind] = [by, -by].map((each) => headReading(which, { [angle]: each }, untold).value);
      const real = Math.abs((ahead ?? Number.NaN) - (behind ?? Number.NaN)) / 2;
      const said = shared.find((each) => each.name === name);
      expect(said?.by).toBe('day');
      within(Math.abs(said?.part ?? 0), real, 0.04 + 0.1 * real, name);
    }
  });
});

describe('the head centre in the box, held against the body in space', () => {
  const keys = READ.filter(([id]) => id === 'head-centre-box');

  it.each(keys)('%s at %s', (id, checkpoint) => {
    const truth = trueReadings(SCENARIO)({ id, aspect: 'value', view: 'face-on', checkpoint });
    within(headReading([id, checkpoint], { yaw: 6, above: 0.2 }, ALL_TOLD).value, truth ?? Number.NaN, 0.4);
  });
});
