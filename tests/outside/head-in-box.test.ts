import { expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { EMPTY_GOALS } from '../../core/measure/goals/goals.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { DRAWING } from '../support/drawn-lessons.ts';
import { ALL_MARKS } from '../support/off-scene.ts';
import { sized } from '../support/sized.ts';
import { deviation, meanOf, tryNothingChanged } from '../support/verdict-trials.ts';

/** A body in space and cameras that are set up anew, none of which the program knows; the head is the same on both days. */
const PAIRS = sized(40, 250);

it('how wide a head looks at the finish is the same on two days: their difference is not said to be unsure by it', () => {
  const { tried } = tryNothingChanged({
    scenario: demoScenario('then'),
    drawing: DRAWING,
    marking: { ...ALL_MARKS, path: false, knownLengths: ['player'], checkpoints: ['address', 'finish'] },
    goals: EMPTY_GOALS,
    placing: ASSUMED_PLACING,
    pairs: PAIRS,
    seed: 20_262,
  });
  const found = tried.find(({ name }) => name === 'head-box, face on, finish')?.comparisons ?? [];
  expect(found.length).toBe(PAIRS);
  const [scatters, said] = [deviation(found.map(({ difference }) => difference)), meanOf(found.map(({ u }) => u))];
  // How tightly the box is drawn is still allowed for, and these hands draw it always alike.
  expect(scatters / said).toBeGreaterThan(0.65);
  expect(scatters / said).toBeLessThan(1.15);
});
