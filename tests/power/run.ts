import { parseArgs } from 'node:util';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { ASSUMED_SET_UP } from '../../core/measure/camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { CHECKPOINTS } from '../../core/model/words.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import { DRAWING, drawnTimes } from '../support/drawn-lessons.ts';
import { ALL_MARKS } from '../support/off-scene.ts';
import { lessonsWorth, smallestOfAll } from '../support/verdict-worth.ts';
import { powerTable, readingTable } from '../support/verdict-tables.ts';
import { comparedPair, tallied } from '../support/verdict-trials.ts';
import type { PairFound } from '../support/verdict-trials.ts';
import { keepWorth } from './keep.ts';
import { keptPairs } from './kept-pairs.ts';

/**
 * `npm run power`, with cameras set up anew for every lesson. It prints how often a ± holds what is true of a body in space,
 * and how often "changed" is said though nothing did. Then it prints how often a change of some size is seen.
 * --pairs N (default 400): a count of 95 % is then known to 2 %. --bare: without ground marks. --click PX. --definition MM:
 * shared and anew alike. --reality X: everything is drawn X times as large as the program states. --swings N a lesson, or
 * several: 1,3,5 are the first ones of five. --checkpoints A,B: only these are marked, without path and head box. --worth N: players differ,
 * as far as a scatter that is worth N degrees of freedom says.
 * --keep: with 1, 3 and 5 swings a lesson; the tables are kept in resources/verdicts.json and docs/verdicts.md, those of another
 * reality in docs/verdicts.md only. A run that was stopped goes on with the next pair. --folder PATH: pairs are kept there, not in out/power.
 */
/** A pair takes a second to draw, and a hundredth of that to be compared: each is, so many times, with other scatters of the player. */
const AGAIN = 3;

const { values } = parseArgs({
  options: {
    pairs: { type: 'string', default: '400' },
    bare: { type: 'boolean', default: false },
    click: { type: 'string', default: '3' },
    definition: { type: 'string', default: '10' },
    reality: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    swings: { type: 'string' },
    checkpoints: { type: 'string' },
    worth: { type: 'string' },
    keep: { type: 'boolean', default: false },
    folder: { type: 'string' },
  },
});
const { pairs: wanted, keep, swings = keep ? '1,3,5' : '1', worth, folder, ...options } = values;
const [pairs, click, metres] = [Number(wanted), Number(values.click), Number(values.definition) / 1000];
const counts = swings.split(',').map(Number);
const definition = { shared: metres, anew: metres };
const only = CHECKPOINTS.filter((name) => values.checkpoints?.split(',').includes(name) ?? true);
const trials = {
  scenario: demoScenario('then'),
  drawing: {
    ...drawnTimes(Number(values.reality), { ...DRAWING, click, definition }),
    ...(worth === undefined ? {} : { worth: Number(worth) }),
  },
  marking: {
    ...{ ...ALL_MARKS, ground: !values.bare, knownLengths: ['player'] as const, checkpoints: only },
    path: values.checkpoints === undefined,
    headBox: values.checkpoints === undefined,
  },
  goals: SHIPPED_GOALS,
  placing: { ...ASSUMED_PLACING, assumed: click, setUp: { ...ASSUMED_SET_UP, definition } },
  pairs,
  again: AGAIN,
  seed: Number(values.seed),
};
const most = Math.max(...counts);
const found: PairFound[] = [];
for (const pair of keptPairs(trials, most, options, folder))
  found.push(comparedPair(trials, found.length, pair, counts));
const results = counts.map((count) => ({ count, result: tallied(found, count, trials.scenario) }));
for (const { count, result } of results) {
  console.log(
    `\n${String(pairs)} pairs of lessons of ${String(count)} swings, ${JSON.stringify({ ...options, worth })}\n`,
  );
  console.log(readingTable(result));
  console.log(`\n${powerTable(result, count)}`);
}
const [one, three] = results;
if (keep && one !== undefined && three !== undefined)
  await keepWorth(
    {
      date: new Date().toISOString().slice(0, 10),
      pairs,
      lessons: results.map(({ count, result }) => lessonsWorth(count, result)),
      smallest: smallestOfAll(one.result, three.result),
    },
    values.reality,
  );
