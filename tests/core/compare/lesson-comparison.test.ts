import { describe, expect, it } from 'vitest';
import { compareSwings } from '../../../core/compare/compare-swings.ts';
import { scatterIn } from '../../../core/compare/player-scatter.ts';
import { ASSUMED_SET_UP } from '../../../core/measure/camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../../../core/measure/uncertainty/placing.ts';
import type { Comparison } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { changedIn } from '../../../core/report/changed.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { stillPages } from '../../../core/report/stills.ts';
import { STEADY, STEADY_SET_UP } from '../../support/steady.ts';
import { within } from '../../support/within.ts';
import { swingOf } from '../measure/build-swing.ts';

const DAYS = ['2026-04-12', '2026-05-12'] as const;
const SCATTER = ASSUMED_SET_UP.scatter;
/** Only clicks, and how far a player's swings lie apart. */
const SCATTERED: PlacingErrors = { ...STEADY, setUp: { ...STEADY_SET_UP, scatter: SCATTER } };

/** Backs that lean so many degrees, a swing each; the first is the open one. */
function lesson(date: string, leans: readonly number[]): MarkedSwing {
  const at = (lean: number) => {
    const radians = (lean * Math.PI) / 180;
    const neck = [300 + 400 * Math.sin(radians), 600 - 400 * Math.cos(radians)] as const;
    return swingOf({ view: 'down-the-line', placed: { address: { tailbone: [300, 600], 'neck-base': neck } } });
  };
  const [first, ...others] = leans.map(at);
  if (first === undefined) throw new Error('a lesson has a swing');
  const besides = others.map(({ clips }, i) => ({ label: `Swing ${String(i + 2)}`, clips }));
  return { ...first, date, label: 'Swing 1', besides };
}

function compared(
  then: readonly number[],
  now: readonly number[],
  placing = SCATTERED,
  days: readonly [string, string] = DAYS,
): Comparison {
  const [found] = compareSwings(lesson(days[0], then), lesson(days[1], now), SHIPPED_GOALS, placing).comparisons;
  if (found === undefined) throw new Error('not compared');
  return found;
}

describe('two lessons', () => {
  it('are compared by the means of their swings', () => {
    const { then, now, difference } = compared([30, 31, 32], [36, 38, 40]);
    within(then.value, 31, 1e-9);
    within(now.value, 38, 1e-9);
    within(difference, 7, 1e-9);
    expect(now.swings?.values.length).toBe(3);
    within(now.interval[1] - now.value, now.coverage * now.u, 1e-12);
  });

  it('are surer with more swings, and one swing each holds the assumed scatter of the player twice', () => {
    const [one, three, five] = [
      compared([31], [38]),
      compared([30, 31, 32], [37, 38, 39]),
      compared([30, 31, 32, 31, 31], [37, 38, 39, 38, 38]),
    ];
    const clicks = Math.sqrt(compared([31], [38], STEADY).u ** 2 + 2 * SCATTER.degrees ** 2);
    within(one.u, clicks, 1e-9);
    expect(three.u).toBeLessThan(one.u / 1.5);
    expect(five.shows).toBeLessThan(three.shows);
    // What three would give is near to what three give.
    expect(one.showsWithThree ?? Number.NaN).toBeGreaterThan(0.7 * three.shows);
    expect(one.showsWithThree ?? Number.NaN).toBeLessThan(1.5 * three.shows);
    expect(three.showsWithThree).toBeNull();
  });

  it('whose swings lie far apart are less sure than those whose swings agree', () => {
    expect(compared([20, 31, 42], [27, 38, 49]).u).toBeGreaterThan(1.5 * compared([30, 31, 32], [37, 38, 39]).u);
  });

  it('take only swings that have the reading in the same unit', () => {
    const now = lesson(DAYS[1], [38, 39]);
    const bare = { label: 'Swing 3', clips: swingOf({ view: 'down-the-line', placed: { address: {} } }).clips };
    const other = { label: 'Swing 4', clips: swingOf({ view: 'face-on', placed: { address: {} } }).clips };
    const besides = [...(now.besides ?? []), bare, other];
    const [found] = compareSwings(lesson(DAYS[0], [31]), { ...now, besides }, SHIPPED_GOALS, SCATTERED).comparisons;
    expect(found?.now.swings?.values.length).toBe(2);
  });

  it('of one day are two swings as they are: no mean, no scatter', () => {
    const found = compared([31, 20], [38, 50], SCATTERED, [DAYS[0], DAYS[0]]);
    expect([found.then.swings, found.now.swings, found.showsWithThree]).toEqual([undefined, undefined, null]);
    within(found.difference, 7, 1e-9);
    within(found.u, compared([31], [38], STEADY).u, 1e-9);
  });
});

it('the assumed scatter is brought to each unit', () => {
  expect(scatterIn({ id: 'back-incline', unit: 'deg' }, SCATTER)).toBe(2);
  within(scatterIn({ id: 'head-shift', unit: 'cm' }, SCATTER), 1, 1e-12);
  within(scatterIn({ id: 'head-shift', unit: '% head box' }, SCATTER), 100 / 24, 1e-9);
  expect(scatterIn({ id: 'head-shift', unit: 'px' }, SCATTER)).toBe(0);
});

describe('what a coach and a student read of it', () => {
  const reportWith = (then: readonly number[], now: readonly number[]) =>
    reportOf({
      ...{ then: lesson(DAYS[0], then), now: lesson(DAYS[1], now) },
      ...{ goals: SHIPPED_GOALS, placing: ASSUMED_PLACING },
    });
  const notesOf = (report: ReturnType<typeof reportWith>) =>
    stillPages(report, { checkpoints: ['address'], views: ['down-the-line'] }).flatMap(({ notes }) => notes);

  it('says of one swing each that the scatter is assumed, and what three would show', () => {
    const report = reportWith([31], [38]);
    expect(report.swings).toMatch(/^One swing each: .* Three swings a lesson would tell more\.$/);
    expect(report.comparisons[0]?.meaning).toMatch(
      /With three swings a lesson, a change of [\d.]+° or more would show\.$/,
    );
    expect(report.comparisons[0]?.means).toEqual({ then: null, now: null });
    expect(notesOf(report)).toContain('One swing each: the ± allows for how far a player’s swings lie apart.');
  });

  it('says of several how many stand behind a number', () => {
    const report = reportWith([30, 31, 32], [36, 38, 40, 38]);
    expect(report.swings).toBe('Means of 3 swings then and 4 swings now, where they are marked.');
    expect(report.comparisons[0]?.means).toEqual({ then: 'mean of 3 swings', now: 'mean of 4 swings' });
    expect(notesOf(report).join(' ')).toContain('means of several swings');
    expect(changedIn(report).changed.length + changedIn(report).worthALook.length).toBeLessThanOrEqual(1);
  });

  it('writes on each picture what is read from it, though the table has the means', () => {
    const report = reportWith([30, 31, 32], [50, 52, 54]);
    const [page] = stillPages(report, { checkpoints: ['address'], views: ['down-the-line'] });
    expect(page?.comparisons[0]?.means.now).toBe('mean of 3 swings');
    expect(page?.panels.map(({ drawn }) => drawn.map(({ value }) => Math.round(value)))).toEqual([[30], [50]]);
  });

  it('names an odd swing, and in what it is odd', () => {
    const report = reportWith([31, 32, 30, 31], [38, 38.5, 37.5, 38, 60]);
    expect(report.warnings.join(' ')).toMatch(
      /Swing 5 of now lies far off the other swings of its lesson: Back incline\./,
    );
    expect(reportWith([31, 32, 30, 31], [38, 38.5, 37.5, 38]).warnings.join(' ')).not.toContain('far off');
  });
});
