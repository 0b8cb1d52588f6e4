import { describe, expect, it } from 'vitest';
import { effectiveCount, momentsOfLog, priorOf } from '../../core/compare/scatter-ensemble.ts';
import type { Contrasts } from '../../core/compare/scatter-ensemble.ts';
import {
  digamma,
  excessOfLog,
  freedomOfLog,
  meanOfLog,
  trigamma,
  varianceOfLog,
} from '../../core/measure/uncertainty/log-chi-square.ts';
import { coverageFactor, studentPart } from '../../core/measure/uncertainty/freedom.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';
import { oraclePower, unsurePower } from '../support/oracles.ts';
import { sized } from '../support/sized.ts';
import { within } from '../support/within.ts';

const EULER = 0.5772156649015329;

describe('the logarithm of a scatter', () => {
  it('has the values of digamma and trigamma that are known in closed form', () => {
    // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 6.3.2, 6.3.3 and 6.4.
    within(digamma(1), -EULER, 1e-12);
    within(digamma(0.5), -EULER - 2 * Math.LN2, 1e-12);
    within(digamma(2), 1 - EULER, 1e-12);
    within(trigamma(1), Math.PI ** 2 / 6, 1e-12);
    within(trigamma(0.5), Math.PI ** 2 / 2, 1e-12);
    within(trigamma(1.5), Math.PI ** 2 / 2 - 4, 1e-12);
    // Third derivative: π⁴/15 at 1, and its excess over a normal distribution is 2.4 with 2 degrees of freedom.
    within(excessOfLog(2), 2.4, 1e-12);
  });

  it('has the values of another library', () => {
    // SciPy 1.17.1, scipy.special.digamma(7.25), polygamma(1, 7.25) and polygamma(3, 30) / polygamma(1, 30)².
    within(digamma(7.25), 1.9104535268837362, 1e-12);
    within(trigamma(7.25), 0.1478792331589322, 1e-12);
    within(excessOfLog(60), 7.786003664736127e-5 / 0.033895060357739946 ** 2, 1e-12);
  });

  it('tells its freedom from its variance', () => {
    // limma 3.54.1 of Bioconductor: trigammaInverse(c(0.05, 0.283823, 1, 5)), good to eight figures.
    const halves = [20.495835239155, 3.999999446989, 1.426255120215, 0.496168734704];
    for (const [i, variance] of [0.05, 0.283823, 1, 5].entries())
      within(freedomOfLog(variance) / 2 / (halves[i] ?? Number.NaN), 1, 1e-7);
    for (const freedom of [0.01, 1, 8, 1e4]) within(freedomOfLog(varianceOfLog(freedom)) / freedom, 1, 1e-9);
    expect(() => freedomOfLog(0)).toThrow('more than 0');
  });
});

it('twelve variances of 4 degrees of freedom have the prior that limma finds', () => {
  const squares = [0.71, 1.34, 2.11, 0.38, 0.95, 1.62, 3.4, 0.52, 1.08, 0.29, 4.9, 0.83];
  const { mean, spread } = momentsOfLog(squares, 4);
  // limma 3.54.1 of Bioconductor: fitFDist(x, 4), to ten figures.
  const freedom = freedomOfLog(spread);
  within(freedom, 29.0879487, 1e-5);
  within(Math.exp(mean + meanOfLog(freedom)), 1.372469976, 1e-8);
});

it('what may be seen by who must estimate a scatter is what the noncentral t says', () => {
  // SciPy 1.17.1: c = t.ppf(0.975, freedom), nct.sf(c, freedom, change) + nct.cdf(-c, freedom, change).
  for (const [freedom, change, power] of [
    [8, 1, 0.143256],
    [8, 2.5, 0.593078],
    [8, 4, 0.936743],
    [16, 1, 0.15595],
    [16, 2.5, 0.65106],
    [30.5, 2.5, 0.677509],
    [30.5, 4, 0.97201],
  ] as const)
    within(unsurePower(change, 1, coverageFactor(freedom), 3), power, 0.001, `${String(freedom)}, ${String(change)}`);
  // Of one swing each nothing is estimated: the coverage alone tells. And who knows the scatter needs 1.96.
  within(unsurePower(2.5, 1, coverageFactor(8), 1), 1 - normalBelow(coverageFactor(8) - 2.5), 1e-4);
  within(unsurePower(2.5, 1, 1.96, 3), oraclePower(2.5, 1), 1e-9);
});

/** SciPy would say scipy.stats.norm.cdf: Student's distribution of very many degrees of freedom. */
const normalBelow = (z: number): number => studentPart(z, 1e6);

/** Of readings in which nothing is the marks'. */
const priorOfAll = (readings: readonly Contrasts[]) => priorOf(readings.map((contrasts) => ({ contrasts, own: 1 })));

/** Readings whose squared scatter is `by` times what is assumed, each besides an F variate of `own` degrees of freedom off. */
function drawn(numbers: Seeded, readings: number, freedom: number, by: number, own = Infinity): readonly Contrasts[] {
  return Array.from({ length: readings }, () => {
    const square = own === Infinity ? by : by / chiSquarePart(numbers, own);
    return Array.from({ length: freedom }, () => Math.sqrt(square) * numbers.normal());
  });
}

function chiSquarePart(numbers: Seeded, freedom: number): number {
  return Array.from({ length: freedom }, () => numbers.normal() ** 2).reduce((sum, each) => sum + each, 0) / freedom;
}

describe('what many readings say of their scatter together', () => {
  it('is found again from F variates: how far off all are, and how far each besides', () => {
    const numbers = seeded(41);
    for (const [by, own] of [
      [1, 6],
      [4, 12],
      [0.25, 6],
    ] as const) {
      const found = priorOfAll(drawn(numbers, 4000, 8, by, own));
      // 4,000 squares tell a log to 2 % of itself, and the variance of their logs to 3 %; three times as much is allowed.
      within(Math.log(found.player / by), 0, 0.06, `factor of ${String(by)}`);
      within(found.freedom / own, 1, 0.2, `freedom of ${String(own)}`);
    }
  });

  it('comes near to certainty where readings agree, and is what was assumed where there are none or one', () => {
    const numbers = seeded(42);
    const many = priorOfAll(drawn(numbers, 2000, 4, 1));
    expect(many.freedom).toBeGreaterThan(30);
    within(many.player, 1, 0.1);
    const assumed = { player: 1, marks: 1, freedom: 8 };
    expect(priorOfAll([])).toEqual(assumed);
    expect(priorOfAll([[], []])).toEqual(assumed);
    expect(priorOfAll(drawn(numbers, 1, 4, 9))).toEqual(assumed);
    // Two swings a lesson do not tell which readings go together.
    expect(priorOfAll(drawn(numbers, 100, 2, 1))).toEqual(assumed);
  });

  it('counts readings that say the same as one, and independent ones as many as they are', () => {
    const numbers = seeded(43);
    const [one] = drawn(numbers, 1, 4, 1);
    if (one === undefined) throw new Error('one was drawn');
    expect(effectiveCount(Array.from({ length: 100 }, () => one))).toBe(1);
    expect(priorOfAll(Array.from({ length: 100 }, () => one))).toEqual({ player: 1, marks: 1, freedom: 8 });
    // 5 that are each seen 20 times. As few products as these tell 1 / count badly: P / (P - 2) more than 1/5.
    const draws = Array.from({ length: 400 }, () => {
      const five = drawn(numbers, 5, 6, 1);
      return 1 / effectiveCount(Array.from({ length: 100 }, (_, i) => five[i % 5] ?? []));
    });
    const mean = draws.reduce((sum, each) => sum + each, 0) / draws.length;
    expect(mean).toBeGreaterThan(1.05 / 5);
    expect(mean).toBeLessThan(1 / 3.5);
  });

  it('tells a player who scatters otherwise from marks that do as well', () => {
    const numbers = seeded(46);
    // Of a third of the readings all is the player's, of a third a half, of a third nearly nothing.
    const owns = [1, 0.5, 0.05].flatMap((own) => Array.from({ length: 700 }, () => own));
    const scattered = (player: number, marks: number) =>
      priorOf(owns.map((own) => ({ own, contrasts: drawn(numbers, 1, 6, own * player + (1 - own) * marks)[0] ?? [] })));
    const [wild, steady, all] = [scattered(4, 1), scattered(0.25, 1), scattered(4, 4)];
    // 700 to 2,100 squares of 6 degrees of freedom tell a variance to 2 to 4 %; three times as much is allowed.
    for (const [found, player, marks] of [
      [wild, 4, 1],
      [steady, 0.25, 1],
      [all, 4, 4],
    ] as const) {
      within(found.player / player, 1, 0.12);
      within(found.marks / marks, 1, 0.12);
      expect(found.freedom).toBeGreaterThan(30);
    }
  });

  it('leaves out what never moves, as times do that are steps of a clock', () => {
    const some = drawn(seeded(44), 200, 4, 1);
    expect(priorOfAll([...some, [0, 0, 0, 0], [1e-9, 0, 0, 0]])).toEqual(priorOfAll(some));
  });
});

/**
 * A t of a reading whose scatter is told by its own swings and this prior, over and over, a player each: how often it is
 * farther out than what holds 95 %. `common`: so much of each reading's scatter goes with that of a few others.
 */
function outsideOf(numbers: Seeded, player: { by: number; common: number; kinds: number }): number {
  const [freedom, readings, players] = [4, 40, sized(150, 1500)];
  let outside = 0;
  for (let each = 0; each < players; each += 1) {
    const kinds = drawn(numbers, player.kinds, freedom + 1, player.by);
    const all = drawn(numbers, readings, freedom + 1, player.by).map((own, i) =>
      own.map(
        (value, k) =>
          Math.sqrt(1 - player.common) * value + Math.sqrt(player.common) * (kinds[i % player.kinds]?.[k] ?? 0),
      ),
    );
    const swings = all.map((own) => own.slice(1));
    const prior = priorOfAll(swings);
    for (const [i, own] of swings.entries()) {
      const squares = prior.freedom * prior.player + own.reduce((sum, value) => sum + value ** 2, 0);
      const s = Math.sqrt(squares / (prior.freedom + freedom));
      if (Math.abs(all[i]?.[0] ?? 0) > coverageFactor(prior.freedom + freedom) * s) outside += 1;
    }
  }
  return outside / (players * readings);
}

describe('a verdict by swings of players whom nobody stated', () => {
  it.each([
    ['as assumed', { by: 1, common: 0, kinds: 1 }],
    ['half as far apart', { by: 0.25, common: 0, kinds: 1 }],
    ['three times as far apart', { by: 9, common: 0, kinds: 1 }],
    ['in whom readings go together', { by: 1, common: 0.7, kinds: 4 }],
    ['in whom they do, twice as far apart', { by: 4, common: 0.7, kinds: 4 }],
  ] as const)('is wrong in no more than 6 of 100: %s', (_, player) => {
    // 150 players whose 40 readings go together in fours are known to 1.5 in 100.
    expect(outsideOf(seeded(45), player)).toBeLessThan(0.06 + sized(0.015, 0.004));
  });
});
