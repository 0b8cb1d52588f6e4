import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import type { MeasuredReading, ReadingId } from '../../core/model/reading.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { degrees } from '../../core/scene/vector.ts';
import { coverageOf, tableOf } from '../support/coverage-of.ts';
import { ON_LINE } from '../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../support/off-scene.ts';
import { drawn } from '../support/drawn.ts';
import { within } from '../support/within.ts';

/**
 * Derived from the scene's geometry: a lead foot turned out by 25 degrees (common practice), seen down the line over a mat of
 * 1.5 m whose four corners are marked. Both places of the foot and all corners are off by 3 px.
 */
const SEED = 1925;
const FEET = {
  ...ALL_MARKS,
  ...{ plumb: false, knownLengths: [], headBox: false, path: false },
  points: ['lead-heel', 'lead-toe', 'trail-heel', 'trail-toe'],
  checkpoints: ['address', 'finish'],
} as const;

const low = demoScenario('now');
/** A camera above the head, 3.5 m away, that looks down. */
const high: Scenario = {
  ...low,
  cameras: {
    ...low.cameras,
    'down-the-line': { from: { x: -3.5, y: 1.8, z: 0.32 }, to: { x: 0, y: 0.8, z: 0.32 }, focal: 1700 },
  },
};

function sceneOf(scenario: Scenario, yaw: number): ReturnType<typeof offScene> {
  const { seen, ideal } = offScene(scenario, { 'down-the-line': { ...ON_LINE, yaw }, 'face-on': ON_LINE }, FEET);
  const behind = (swing: MarkedSwing) => ({ ...swing, clips: swing.clips.slice(0, 1) });
  return { seen: behind(seen), ideal: behind(ideal) };
}

function read(swing: MarkedSwing, id: ReadingId, checkpoint: Checkpoint = 'address', sigma = 3): MeasuredReading {
  const placing = { known: {}, assumed: sigma };
  const found = readSwing(swing, placing).find((reading) => reading.id === id && reading.checkpoint === checkpoint);
  if (found?.state !== 'measured') throw new Error(`${id} is not measured`);
  return found;
}

const halfOf = ({ interval: [from, to] }: MeasuredReading) => (to - from) / 2;

/** The foot's direction as it looks: from the level of the picture, where one square to the target line lies. */
function looks(swing: MarkedSwing): number {
  const { 'lead-heel': heel, 'lead-toe': toe } = swing.clips[0]?.marks[0]?.points ?? {};
  if (heel === undefined || toe === undefined) throw new Error('the foot is not marked');
  return degrees(Math.atan2(heel.y - toe.y, toe.x - heel.x));
}

describe('a lead foot turned out by 25 degrees, down the line', () => {
  it('is read on the ground, while in the picture it looks like 4 degrees: 21 off', () => {
    const { seen } = sceneOf(low, 0);
    within(read(seen, 'lead-flare').value, 25, 1e-6);
    // Heel 6.3925 m ahead of the lens and 0.3789 m left of it, toe 6.5172 m and 0.1116 m; the lens 0.95 m above both:
    // level -0.01712 + 0.05927 = 0.04215, up 0.95 / 6.3925 - 0.95 / 6.5172 = 0.002844, so 3.86 degrees.
    within(looks(seen), 3.86, 0.02);
  });

  it('is read on the ground by a camera that stands 8 degrees off its line, to which it looks like 5 degrees', () => {
    const { seen } = sceneOf(low, 8);
    within(read(seen, 'lead-flare').value, 25, 1e-6);
    within(looks(seen), 5.34, 0.02);
  });

  it('is as sure as the camera is high: no better than 24 degrees from 0.95 m high and 6.2 m away', () => {
    within(halfOf(read(sceneOf(low, 0).seen, 'lead-flare')), 23.5, 0.5);
  });

  it('and within 9 degrees from 1.8 m high and 3.5 m away, within 3 where places are good to 1 px', () => {
    const { seen } = sceneOf(high, 0);
    within(halfOf(read(seen, 'lead-flare')), 8.6, 0.3);
    within(halfOf(read(seen, 'lead-flare', 'address', 1)), 2.9, 0.1);
    // The rest is the foot's own: its two places 29.5 cm apart, each off by what 3 px are on the ground there.
    const placing = read(seen, 'lead-flare').budget.find(({ source }) => source === 'placing')?.u ?? 0;
    expect(placing).toBeGreaterThan(0.9 * read(seen, 'lead-flare').u);
  });

  it('does not slip when it stays where it is, and stands as wide as it stands', () => {
    const { seen } = sceneOf(high, 8);
    within(read(seen, 'heel-slip', 'finish').value, 0, 1e-6);
    within(read(seen, 'toe-slip', 'finish').value, 0, 1e-6);
    expect(read(seen, 'toe-slip', 'finish').interval[0]).toBe(0);
    // Both toes are turned out, the heels stand closer than the ankles: 44 - 6.5 (sin 25 + sin 8) cm, and 0.4 cm ahead.
    const heels = Math.hypot(44 - 6.5 * 0.5618, 6.5 * 0.084);
    within(read(seen, 'ground-stance').value, heels, 0.05);
  });

  // A low and a high camera a commit, all in the long run.
  it.each(
    drawn(
      [
        ['low, on its line', low, 0],
        ['high, 8 degrees off it', high, 8],
        ['low, 8 degrees off it', low, 8],
        ['high, on its line', high, 0],
      ],
      0,
      2,
    ),
  )(
    `lies in its ± in 93 to 97 of 100 markings, with slip and stance: camera %s (seed ${String(SEED)})`,
    (_, scenario, yaw) => {
      const covered = coverageOf({ scenario, ...sceneOf(scenario, yaw) }, 3, 2000, SEED);
      expect(covered).toHaveLength(7);
      // A way of no length has no direction that errors could lie along: 95 % exactly; a short one is told a little too wide.
      const off = covered.filter(({ part }) => !(part >= 0.93 && part <= 0.97));
      expect(off.length, `seed ${String(SEED)}\n${tableOf(covered)}`).toBe(0);
    },
  );
});
