import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { coverageOf, slackOf, tableOf } from '../support/coverage-of.ts';
import type { Covered } from '../support/coverage-of.ts';
import { ON_LINE } from '../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../support/off-scene.ts';
import { sized } from '../support/sized.ts';

/**
 * Derived from the scene's geometry; how a ± is to be tried, and that 95 % is what it promises: JCGM 101:2008, 5.3.2 and 7.7.
 *
 * An invented player, seen by cameras that stand 6 and 8 degrees off their line, too high and too low, rolled by 2 and 2.5
 * degrees, some through a lens. All is marked 2,000 times (200 per commit) by a hand that is off by 3 px. Depths, instants, hidden joints and
 * smears are drawn by distributions of the test's own (support/coverage-of.ts, marked-again.ts). The truth of a reading is
 * that of the exact marks as the same camera would show them without its lens, upright by the true vertical. Its 95 % interval must hold that in 93 to 97 of 100 markings: 95, and four
 * standard errors of the count either side.
 */
const CLICK = 3;
const MARKINGS = sized(200, 2000);
const SLACK = slackOf(MARKINGS);
const LEAST = 0.95 - SLACK;

const OFF = {
  'down-the-line': { ...ON_LINE, yaw: 8, roll: 2.5, raised: -0.2 },
  'face-on': { ...ON_LINE, yaw: -6, roll: -2, raised: 0.3 },
};
const BARREL = { k1: -0.08, k2: 0 };
const THROUGH_LENS = {
  'down-the-line': { ...OFF['down-the-line'], lens: BARREL },
  'face-on': { ...OFF['face-on'], lens: BARREL },
};
const WITHOUT_FEET = { ...ALL_MARKS, ground: false, path: false };

/** Readings that hold more often than 97 % by their nature; never less often than 93 %. `most`: in 2,000 markings. */
interface Exception {
  readonly names: readonly string[];
  readonly most: number;
  readonly why: string;
}

/** Lengths in the picture, stated in cm where there is a known length. `name` begins with the id of the reading. */
function isLength(name: string): boolean {
  const entry = Object.entries(CATALOGUE).find(([id]) => name.startsWith(`${id},`))?.[1];
  return entry?.quantity === 'length' && !entry.ground;
}

function check(
  scenario: Scenario,
  scene: ReturnType<typeof offScene>,
  seed: number,
  least: number,
  exceptions: readonly Exception[],
): void {
  // The head has a truth of its own, the painted figure: tests/core/demo/head-in-box.test.ts.
  const covered = coverageOf({ scenario, ...scene }, CLICK, MARKINGS, seed).filter(
    ({ name }) => !name.startsWith('head-box,'),
  );
  expect(covered.length).toBeGreaterThanOrEqual(least);
  // A length may be as unsure as its depth, which is even between limits and has no tails. Whether the ± is too wide for it
  // is told by coverage-in-depth.test.ts, by the size of the errors.
  const mostOf = ({ name }: Covered): number =>
    isLength(name) ? 1 : (exceptions.find(({ names }) => names.includes(name))?.most ?? 0.97) + SLACK - 0.02;
  const off = covered.filter((each) => !(each.part >= LEAST && each.part <= mostOf(each)));
  expect(off.length, `seed ${String(seed)}\n${tableOf(off)}\n\nall:\n${tableOf(covered)}`).toBe(0);
}

/** A leg that is straight but for a few degrees: errors to the far side of 180 fold back, so that fewer lie far off. */
const STRAIGHT = 'a leg within two u of straight';
/** The middle of a narrow box: its two sides are equally near, and trials at a ridge are told with room to spare. */
const RIDGE = 'the ridge between two edges of the head box';

const named = (view: string, id: string, ...checkpoints: readonly string[]): readonly string[] =>
  checkpoints.map((checkpoint) => `${id}, ${view}, ${checkpoint}`);

describe('the 95 % interval of every reading holds the truth in 93 to 97 of 100 markings', () => {
  it('in centimetres, with plumb and level, and of times', () => {
    const scenario = demoScenario('then');
    const checkpoints = ['address', 'takeaway', 'top', 'impact'] as const;
    const scene = offScene(scenario, OFF, { ...WITHOUT_FEET, level: true, checkpoints });
    check(scenario, scene, 31415, 60, []);
  }, 600_000);

  it('through a lens that four straight edges tell', () => {
    const scenario = demoScenario('now');
    const checkpoints = ['address', 'lead-arm-level', 'lead-arm-level-down', 'through', 'finish'] as const;
    const scene = offScene(scenario, THROUGH_LENS, { ...WITHOUT_FEET, edges: true, checkpoints });
    check(scenario, scene, 27182, 65, [
      { why: STRAIGHT, most: 0.98, names: named('down-the-line', 'lead-knee', 'finish') },
      { why: RIDGE, most: 0.98, names: named('face-on', 'head-centre-box', 'lead-arm-level-down', 'through') },
    ]);
  }, 600_000);

  it('as a part of a body length, without known length, with hidden points', () => {
    const scenario = demoScenario('then');
    const checkpoints = ['address', 'top', 'through'] as const;
    const hidden = ['trail-hip', 'lead-elbow'] as const;
    const scene = offScene(scenario, OFF, { ...WITHOUT_FEET, knownLengths: [], hidden, checkpoints });
    check(scenario, scene, 16180, 40, []);
  }, 600_000);
});
