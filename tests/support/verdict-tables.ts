import { isEquivalent, verdictOnTrial, verdictsScreened } from '../../core/compare/verdicts.ts';
import { NORMAL_COVERAGE } from '../../core/measure/uncertainty/freedom.ts';
import { oracleEquivalence, oraclePower, unsurePower } from './oracles.ts';
import { deviation, meanOf } from './verdict-trials.ts';
import type { TrialResult, Tried } from './verdict-trials.ts';

const percent = (part: number): string => `${(100 * part).toFixed(1)} %`;

/** Half of the 95 % interval of a part counted in so many trials, at most: at a half it is widest. */
const halfWidth = (part: number, trials: number): number => 1.96 * Math.sqrt((part * (1 - part)) / trials);

/** A line for each reading: what its ± holds, and what is said of it though nothing changed. */
export function readingTable({ tried, pairs }: TrialResult): string {
  const lines = tried
    .filter(({ comparisons }) => comparisons.length > 1)
    .map((each) => [each.name.padEnd(54), ...coverageIn(each), ...verdictsIn(each)].join('  '));
  const looked = pairs.filter((all) => verdictsScreened(all).includes('worth a look')).length / pairs.length;
  const covered = tried.filter(({ errors }) => errors.length > 0);
  const held = covered.map((each) => each.held / each.errors.length);
  return [
    `${'reading'.padEnd(54)}    truth   held  sd/u error  | sd(d)   u(d)  changed  no change (oracle)  shows`,
    ...lines,
    '',
    `held, all: ${percent(meanOf(held))}; least ${percent(Math.min(...held))}; ${String(held.filter((part) => part < 0.92).length)} of ${String(held.length)} below 92 %`,
    noChangeWords(tried),
    `comparisons with anything "worth a look" though nothing changed: ${percent(looked)} (± ${percent(halfWidth(looked, pairs.length))})`,
  ].join('\n');
}

function noChangeWords(tried: readonly Tried[]): string {
  const known = tried.filter(({ comparisons }) => comparisons.length > 1 && comparisons[0]?.tolerance !== null);
  const oracle = (coverageOf: (each: Tried) => number) =>
    meanOf(
      known.map((each) => {
        const sd = deviation(each.comparisons.map(({ difference }) => difference));
        return oracleEquivalence(each.comparisons[0]?.tolerance ?? 0, sd, coverageOf(each));
      }),
    );
  const said = meanOf(known.map(({ comparisons }) => comparisons.filter(isEquivalent).length / comparisons.length));
  const asUnsure = oracle(({ comparisons }) => meanOf(comparisons.map(({ coverage }) => coverage)));
  return `"no change" where nothing did: ${percent(said)}; oracle ${percent(oracle(() => NORMAL_COVERAGE))}; as unsure of the scatter ${percent(asUnsure)}`;
}

function coverageIn({ truth, held, errors, us }: Tried): readonly string[] {
  if (errors.length === 0 || truth === null) return [' '.repeat(28)];
  const spread = Math.sqrt(meanOf(errors.map((error) => error ** 2))) / Math.sqrt(meanOf(us.map((u) => u ** 2)));
  return [truth.toFixed(1).padStart(7), percent(held / errors.length).padStart(7), spread.toFixed(2).padStart(8)];
}

function verdictsIn({ comparisons }: Tried): readonly string[] {
  const sd = deviation(comparisons.map(({ difference }) => difference));
  const said = comparisons.map(verdictOnTrial);
  const part = (word: (typeof said)[number]) => said.filter((each) => each === word).length / said.length;
  const tolerance = comparisons[0]?.tolerance ?? null;
  const same =
    tolerance === null ? '-' : `${percent(part('no change'))} (${percent(oracleEquivalence(tolerance, sd))})`;
  return [
    `| ${sd.toFixed(2).padStart(6)}`,
    meanOf(comparisons.map(({ u }) => u))
      .toFixed(2)
      .padStart(5),
    percent(part('changed')).padStart(7),
    same.padStart(18),
    meanOf(comparisons.map(({ shows }) => shows))
      .toFixed(1)
      .padStart(6),
  ];
}

/** Sizes of changes that coaches ask for, in the reading's unit. */
export const ASKED = [
  ['shoulder-to-spine, down the line, top', [5, 10, 15]],
  ['head-shift, face on, top', [2, 4, 6]],
  ['trail-knee change, down the line, top', [5, 10, 15]],
  ['back-incline, down the line, address', [3, 5, 8]],
] as const;

/** What a change of some size has for a chance of being seen, of being told with the wrong sign, and what an oracle would see. */
export function powerTable({ tried }: TrialResult, swings: number): string {
  const lines = ASKED.flatMap(([name, changes]) => {
    const found = tried.find((each) => each.name === name);
    if (found === undefined) throw new Error(`power: ${name} was not read`);
    return changes.map((change) => {
      const { seen, wrong } = powerOf(found, change);
      const sd = deviation(found.comparisons.map(({ difference }) => difference));
      const unsure = unsurePower(change, sd, meanOf(found.comparisons.map(({ coverage }) => coverage)), swings);
      return [
        name.padEnd(42),
        String(change).padStart(3),
        percent(seen).padStart(7),
        `± ${percent(halfWidth(seen, 2 * found.comparisons.length))}`,
        `not knowing the scatter ${percent(unsure)}`,
        `oracle ${percent(oraclePower(change, sd))}`,
        `wrong sign ${percent(wrong)}`,
      ].join('  ');
    });
  });
  return ['power: changed, right sign', ...lines].join('\n');
}

/** The change is added to each difference that was found where there was none, upward and downward. */
export function powerOf({ comparisons }: Tried, change: number): { readonly seen: number; readonly wrong: number } {
  const signs = [1, -1].flatMap((sign) =>
    comparisons.map((each) => {
      const difference = each.difference + sign * change;
      const isSaid = verdictOnTrial({ ...each, difference }) === 'changed';
      return isSaid ? Math.sign(difference) * sign : 0;
    }),
  );
  return {
    seen: signs.filter((sign) => sign > 0).length / signs.length,
    wrong: signs.filter((sign) => sign < 0).length / signs.length,
  };
}
