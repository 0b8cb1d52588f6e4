import { parseArgs } from 'node:util';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { ASSUMED_SET_UP } from '../../core/measure/camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { SHIPPED_GOALS } from '../../core/parse/shipped-goals.ts';
import { DRAWING, drawnTimes } from '../support/drawn-lessons.ts';
import { ALL_MARKS } from '../support/off-scene.ts';
import { lessonsWorth, smallestOfAll } from '../support/verdict-worth.ts';
import { keepWorth } from './keep.ts';
import { powerTable, readingTable } from '../support/verdict-tables.ts';
import { tryNothingChanged } from '../support/verdict-trials.ts';
import type { TrialResult } from '../support/verdict-trials.ts';

/**
 * `npm run power`, with cameras set up anew for every lesson. It prints how often a ± holds what is true of a body in space,
 * and how often "changed" is said though nothing did. Then it prints how often a change of some size is seen.
 * --pairs N (default 400): a count of 95 % is then known to 2 %. --bare: without ground marks. --click PX. --definition MM:
 * shared and anew alike. --reality X: everything is drawn X times as large as the program states. --swings N a lesson.
 * --keep: with 1, 3 and 5 swings a lesson; the tables are kept in resources/verdicts.json and docs/verdicts.md, those of another
 * reality in docs/verdicts.md only.
 */
const { values } = parseArgs({
  options: {
    pairs: { type: 'string', default: '400' },
    bare: { type: 'boolean', default: false },
    click: { type: 'string', default: '3' },
    definition: { type: 'string', default: '10' },
    reality: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    swings: { type: 'string', default: '1' },
    keep: { type: 'boolean', default: false },
  },
});
const pairs = Number(values.pairs);
const click = Number(values.click);
const metres = Number(values.definition) / 1000;
const definition = { shared: metres, anew: metres };
const trialOf = (swings: number) =>
  tryNothingChanged({
    scenario: demoScenario('then'),
    drawing: drawnTimes(Number(values.reality), { ...DRAWING, click, definition }),
    marking: { ...ALL_MARKS, ground: !values.bare, knownLengths: ['player'] },
    goals: SHIPPED_GOALS,
    placing: { ...ASSUMED_PLACING, assumed: click, setUp: { ...ASSUMED_SET_UP, definition } },
    pairs,
    swings,
    seed: Number(values.seed),
  });
const show = (swings: number, result: TrialResult): void => {
  console.log(
    `${String(pairs)} pairs of lessons, ${values.bare ? 'no ground marks' : 'ground marks'}, clicks ${String(click)} px, ` +
      `definition ${values.definition} mm, ${String(swings)} swings a lesson, reality ${values.reality} times as stated, ` +
      `seed ${values.seed}\n`,
  );
  console.log(readingTable(result));
  console.log(`\n${powerTable(result)}`);
};
if (values.keep) {
  const [one, three, five] = [trialOf(1), trialOf(3), trialOf(5)];
  for (const [swings, result] of [[1, one] as const, [3, three] as const, [5, five] as const]) show(swings, result);
  await keepWorth(
    {
      date: new Date().toISOString().slice(0, 10),
      pairs,
      lessons: [lessonsWorth(1, one), lessonsWorth(3, three), lessonsWorth(5, five)],
      smallest: smallestOfAll(one, three),
    },
    values.reality,
  );
} else show(Number(values.swings), trialOf(Number(values.swings)));
