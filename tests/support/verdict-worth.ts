import { isEquivalent, verdictOnTrial, verdictsScreened } from '../../core/compare/verdicts.ts';
import { NORMAL_COVERAGE } from '../../core/measure/uncertainty/freedom.ts';
import type { LessonsWorth, VerdictWorth } from '../../core/report/verdict-worth.ts';
import { oracleEquivalence, oraclePower, unsurePower } from './oracles.ts';
import { powerOf, ASKED } from './verdict-tables.ts';
import { deviation, meanOf } from './verdict-trials.ts';
import type { TrialResult, Tried } from './verdict-trials.ts';

/** What a trial says of verdicts, as it is kept in resources/verdicts.json. Nothing of it is typed by hand. */

/** So few differences say nothing of a reading. */
const FEWEST = 20;
const LEAST_HELD = 0.92;
const MOST_CHANGED = 0.06;

export function lessonsWorth(swings: number, { tried, pairs }: TrialResult): LessonsWorth {
  const held = tried.filter(({ errors }) => errors.length >= FEWEST).map((each) => each.held / each.errors.length);
  const compared = tried.filter(({ comparisons }) => comparisons.length >= FEWEST);
  const changed = compared.map(({ comparisons }) => part(comparisons, (each) => verdictOnTrial(each) === 'changed'));
  return {
    swings,
    held: {
      ...{ mean: short(meanOf(held)), least: short(Math.min(...held)), readings: held.length },
      low: held.filter((each) => each < LEAST_HELD).length,
    },
    changed: {
      ...{ mean: short(meanOf(changed)), most: short(Math.max(...changed)) },
      high: changed.filter((each) => each > MOST_CHANGED).length,
    },
    worthALook: short(part(pairs, (all) => verdictsScreened(all).includes('worth a look'))),
    noChange: noChangeIn(compared),
    power: ASKED.flatMap(([name, changes]) => {
      const found = tried.find((each) => each.name === name);
      if (found === undefined) throw new Error(`power: ${name} was not read`);
      const sd = deviation(found.comparisons.map(({ difference }) => difference));
      const coverage = meanOf(found.comparisons.map((each) => each.coverage));
      return changes.map((change) => {
        const { seen, wrong } = powerOf(found, change);
        const known = { unsure: unsurePower(change, sd, coverage, swings), oracle: oraclePower(change, sd) };
        const numbers = {
          seen: short(seen),
          unsure: short(known.unsure),
          oracle: short(known.oracle),
          wrong: short(wrong),
        };
        return { ...found.key, unit: found.comparisons[0]?.unit ?? 'deg', change, ...numbers };
      });
    }),
  };
}

/** Of all differences with a tolerance: how often "no change" is said, and how often whoever knows the true scatter could. */
function noChangeIn(compared: readonly Tried[]): LessonsWorth['noChange'] {
  const known = compared.filter(({ comparisons: [first] }) => first !== undefined && first.tolerance !== null);
  const said = known.map(({ comparisons }) => part(comparisons, isEquivalent));
  const could = (coverageOf: (each: Tried) => number) =>
    known.map((each) => {
      const sd = deviation(each.comparisons.map(({ difference }) => difference));
      return oracleEquivalence(each.comparisons[0]?.tolerance ?? 0, sd, coverageOf(each));
    });
  const unsure = could(({ comparisons }) => meanOf(comparisons.map(({ coverage }) => coverage)));
  return {
    said: short(meanOf(said)),
    unsure: short(meanOf(unsure)),
    oracle: short(meanOf(could(() => NORMAL_COVERAGE))),
  };
}

/** For each reading and unit the smallest change that shows, a median over its checkpoints, with one swing a lesson and with three. */
export function smallestOfAll(one: TrialResult, three: TrialResult): VerdictWorth['smallest'] {
  const sizes = (result: TrialResult, { key }: Tried, unit: string) =>
    result.tried.flatMap(({ key: { id, aspect }, comparisons }) =>
      id === key.id && aspect === key.aspect ? comparisons.filter((each) => each.unit === unit) : [],
    );
  const seen = new Set<string>();
  return one.tried.flatMap((each) => {
    const unit = each.comparisons[0]?.unit;
    const name = `${each.key.id} ${each.key.aspect} ${String(unit)}`;
    if (unit === undefined || seen.has(name)) return [];
    seen.add(name);
    const [alone, several] = [one, three].map((result) => median(sizes(result, each, unit).map(({ shows }) => shows)));
    if (alone === undefined || several === undefined || !Number.isFinite(several)) return [];
    return [{ reading: each.key.id, aspect: each.key.aspect, unit, one: figures(alone), three: figures(several) }];
  });
}

function part<T>(all: readonly T[], is: (each: T) => boolean): number {
  return all.filter(is).length / all.length;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

/** What is known to a percent needs no more digits in a file. */
const short = (value: number): number => Number(value.toFixed(4));
const figures = (value: number): number => Number(value.toPrecision(3));
