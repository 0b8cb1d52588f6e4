import { expect, test } from 'vitest';
import demo from '../../resources/demo-scenario.json' with { type: 'json' };
import { DEMO_LESSONS, demoScenario } from '../../core/demo/demo-scenario.ts';
import { within } from '../support/within.ts';

/**
 * The invented player could be somebody. Parts of stature from R. Drillis, R. Contini, "Body Segment Parameters", TR
 * 1166-03, New York University 1966 (one constant each, no spread), and from ANSUR II (US Army, 2012 survey, public
 * release 2017), 4,082 men, mean and standard deviation computed from its public table. 5th to 95th percentile is taken
 * as mean -+ 1.645 SD. Soldiers, adults: a limit of plausibility, no norm.
 */
const STATURE = 1.78;
const percentiles = (mean: number, sd: number) => [mean - 1.645 * sd, mean + 1.645 * sd] as const;
const SHOULDERS = percentiles(0.2368, 0.0098);
/** Trochanter height less height of the lateral malleolus. */
const LEGS = percentiles(0.5128 - 0.0415, 0.0152);
const FOOT = percentiles(0.1544, 0.0052);
const UPPER_ARM = percentiles(0.1909, 0.0061);

test.each(DEMO_LESSONS)('the body of %s has lengths as people have them', (lesson) => {
  const { body, stanceWidth } = demoScenario(lesson);
  const of = (length: number) => length / STATURE;
  const inside = (value: number, [low, high]: readonly [number, number]) => {
    expect(value).toBeGreaterThanOrEqual(low);
    expect(value).toBeLessThanOrEqual(high);
  };
  inside(of(body.shoulderWidth), SHOULDERS);
  inside(of(body.upperArm), UPPER_ARM);
  // Hip joint to ankle bends about the joint, which lies up to 2 % of stature above the trochanter's tip.
  inside(of(body.thigh + body.shank), [LEGS[0], LEGS[1] + 0.02]);
  inside(body.shoulderWidth / (body.thigh + body.shank), [SHOULDERS[0] / (LEGS[1] + 0.02), SHOULDERS[1] / LEGS[0]]);
  // A shoe is 1 to 4 cm longer than its foot (common practice).
  inside(body.shoe, [FOOT[0] * STATURE + 0.01, FOOT[1] * STATURE + 0.04]);
  // Hip joints lie nearer together than the pelvis is wide, bicristal 0.1569 of stature.
  inside(of(body.hipWidth), [0.05, 0.1569]);
  inside(stanceWidth / body.shoulderWidth, [0.1, 3]);
  // Drillis and Contini, three figures: half a last digit.
  within(of(body.thigh), 0.245, 0.0005);
  within(of(body.shank), 0.246, 0.0005);
  within(of(body.upperArm), 0.186, 0.0005);
  within(of(body.forearm), 0.146, 0.0005);
});

test('the stature that the lengths are parts of is the one that is stated with them', () => {
  expect(demo.scene.body.source).toContain(`Stature ${String(STATURE)} m`);
});
