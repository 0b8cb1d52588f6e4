import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { EMPTY_GOALS } from '../../core/measure/goals/goals.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { DRAWING } from '../support/drawn-lessons.ts';
import { ALL_MARKS } from '../support/off-scene.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { comparedPair } from '../support/verdict-trials.ts';
import { keptPairs } from './kept-pairs.ts';

const TRIALS = {
  scenario: demoScenario('then'),
  drawing: DRAWING,
  marking: {
    ...ALL_MARKS,
    path: false,
    headBox: false,
    ground: false,
    checkpoints: ['address'],
    points: ['tailbone', 'neck-base', 'lead-knee', 'lead-ankle', 'trail-ankle'],
  },
  goals: EMPTY_GOALS,
  placing: ASSUMED_PLACING,
  seed: 5,
} as const;
const COUNTS = [1, 2];

it('a run that was stopped, even in the middle of writing, goes on with the very pairs that one run draws', () => {
  const [whole, stopped] = [temporaryFolder(), temporaryFolder()];
  const run = (pairs: number, folder: string) =>
    [...keptPairs({ ...TRIALS, pairs }, 2, { click: '3' }, folder)].map((pair, i) =>
      comparedPair({ ...TRIALS, pairs }, i, pair, COUNTS),
    );
  const all = run(2, whole);
  run(1, stopped);
  const [name = ''] = readdirSync(stopped);
  const path = join(stopped, name);
  writeFileSync(path, readFileSync(path, 'utf8').slice(0, -200));
  const again = run(2, stopped);
  expect(again).toEqual(all);
  expect(again[0]?.compared.map(({ swings }) => swings)).toEqual(COUNTS);
  expect(readdirSync(stopped)).toEqual(readdirSync(whole));
  // Other trials are kept in another file.
  expect([...keptPairs({ ...TRIALS, pairs: 1 }, 1, { click: '2' }, stopped)]).toHaveLength(1);
  expect(readdirSync(stopped)).toHaveLength(2);
});
