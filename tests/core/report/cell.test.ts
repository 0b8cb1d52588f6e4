import { describe, expect, it } from 'vitest';
import { compareSwings } from '../../../core/compare/compare-swings.ts';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { IMPLAUSIBLE_QUESTION } from '../../../core/measure/doubts/plausible.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { cellOf } from '../../../core/report/cell.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { leftOutWords, linesOf, pairedLines } from '../../../core/report/lines.ts';
import { changedIn } from '../../../core/report/changed.ts';
import { stillPages } from '../../../core/report/stills.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { swingOf } from '../measure/build-swing.ts';
import { line } from '../measure/invented-swing.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';
import { STEADY } from '../../support/steady.ts';

const TOP = { view: 'face-on', checkpoint: 'top' } as const;
const CHOICE = { checkpoints: ['top'], views: ['face-on'] } as const;

describe('what tells nothing is left out everywhere alike', () => {
  /** Hips that nearly hide one another at top make the line of then tell nothing. */
  const at = (lead: readonly [number, number]) => ({ 'lead-hip': lead, 'trail-hip': [500, 300] as const });
  const then = swingOf({ view: 'face-on', placed: { top: at([512, 302]) } });
  const now = { ...swingOf({ view: 'face-on', placed: { top: at([700, 330]) } }), date: '2026-06-12' };
  const report = reportOf({ then, now, goals: SHIPPED_GOALS, placing: STEADY });

  it('of one of two: no difference, and the other number alone', () => {
    expect(compareSwings(then, now, SHIPPED_GOALS).comparisons.map(({ id }) => id)).toContain('hip-line');
    expect([report.comparisons, report.idleComparisons]).toEqual([[], 1]);
    const cell = cellOf(report, TOP);
    expect([cell.comparisons, cell.then.readings]).toEqual([[], []]);
    expect(cell.now.readings.map(({ reading, differs }) => [reading.id, differs])).toEqual([['hip-line', null]]);
    const [still] = stillPages(report, CHOICE);
    expect(still?.comparisons).toEqual([]);
    expect(still?.panels.map(({ readings }) => readings.length)).toEqual([0, 1]);
  });

  it('and the sheet says that there is something, and where it is said why; it does not claim that nothing was placed', () => {
    const { then: earlier } = cellOf(report, TOP);
    expect(earlier.idle.map(({ label }) => label)).toEqual(['Hip line']);
    expect(earlier.idle[0]?.words).toMatch(/too close together/);
    expect(linesOf(earlier)).toEqual([]);
    expect(leftOutWords(earlier)).toBe('1 not usable here: the bench says why.');
  });

  it('and then and now stand in one row each, whichever of them has the reading', () => {
    const cell = cellOf(report, TOP);
    const rows = (sides: typeof cell) =>
      pairedLines(sides).map(({ label, then: before, now: after }) => [label, before?.number, after?.number]);
    const number = cell.now.readings[0]?.number;
    expect(rows(cell)).toEqual([['Hip line', undefined, number]]);
    expect(rows({ ...cell, then: cell.now, now: cell.then })).toEqual([['Hip line', number, undefined]]);
    expect(rows({ ...cell, then: cell.now })).toEqual([['Hip line', number, number]]);
  });
});

describe('a number that tells nothing in its own unit, but can be compared in another', () => {
  /** The known length lies nearly along the view: no centimetres now. Then has none, so both are parts of the head box. */
  const along = line('yardstick', { x: 300, y: 900 }, { x: 302, y: 900 }, 1000);
  const box = { kind: 'box', id: 'b', role: 'head-box', x: 540, y: 230, width: 120, height: 140 } as const;
  const swing = (shapes: readonly (typeof along | typeof box)[], headAt: number): MarkedSwing =>
    swingOf({
      view: 'face-on',
      placed: { address: { 'head-centre': [600, 300] }, top: { 'head-centre': [headAt, 300] } },
      shapes: [...shapes],
    });
  const then = swing([box], 590);
  const now = { ...swing([box, along], 660), date: '2026-06-12' };
  const report = reportOf({ then, now, goals: SHIPPED_GOALS, placing: STEADY });
  const shift = <T extends { readonly reading: { readonly id: string } }>(all: readonly T[]) =>
    all.find(({ reading }) => reading.id === 'head-shift');

  it('stands in every place in that other unit, and is listed with the reason for its own', () => {
    const cell = cellOf(report, TOP);
    expect(shift(cell.now.readings)?.number).toMatch(/ % of head box$/);
    expect(shift(cell.now.readings)?.differs?.difference).toMatch(/ % of head box$/);
    expect(shift(cell.now.idle)?.words).toMatch(/give no centimetres/);
    const lines = linesOf(cell.now).map(({ label, differs }) => [label, differs.length]);
    expect(lines).toContainEqual(['Head shift', 1]);
    expect(stillPages(report, CHOICE)[0]?.comparisons.map(({ label }) => label)).toContain('Head shift');
  });
});

describe('a line', () => {
  const NAMED = { address: 2, top: 9 } as const;
  const clip = markedClip('down-the-line', NAMED);
  const now = markedSwing('2026-06-12', [clip]);
  const then = markedSwing('2026-05-12', [markedClip('down-the-line', NAMED, 30)]);
  const top = { view: 'down-the-line', checkpoint: 'top' } as const;
  const report = reportOf({ then, now, goals: SHIPPED_GOALS, placing: STEADY });

  it('has value, change and the differences of both; each that is counted at the head stands in a cell', () => {
    const shown = (['address', 'top'] as const).flatMap((checkpoint) =>
      linesOf(cellOf(report, { ...top, checkpoint }).now).flatMap(({ differs }) => differs),
    );
    expect(new Set(shown)).toEqual(new Set(report.comparisons));
    const knee = linesOf(cellOf(report, top).now).find(({ label }) => label === 'Trail knee');
    expect(knee?.change).toMatch(/ from address$/);
    expect(knee?.differs.map(({ label }) => label)).toEqual(['Trail knee', 'Trail knee, change from address']);
    const { changed, worthALook, same, unsure } = changedIn(report);
    expect(changed.length + worthALook.length + same + unsure).toBe(report.comparisons.length);
  });

  it('asks what can hardly be right, on the sheet and the bench; a still, which a student reads, does not', () => {
    const marks = clip.marks.map((one) => ({
      ...one,
      points: { ...one.points, 'neck-base': { x: 340, y: 560, hidden: false } },
    }));
    const swapped = reportOf({
      now: { ...now, clips: [{ ...clip, marks }] },
      then: null,
      goals: EMPTY_GOALS,
      placing: STEADY,
    });
    const cell = cellOf(swapped, { ...top, checkpoint: 'address' });
    const asked = cell.now.readings.filter(({ question }) => question === IMPLAUSIBLE_QUESTION);
    expect(asked.map(({ reading }) => reading.id)).toContain('back-incline');
    expect(linesOf(cell.now).find(({ key }) => key.id === 'back-incline')?.questions).toEqual([IMPLAUSIBLE_QUESTION]);
    const still = stillPages(swapped, { views: ['down-the-line'], checkpoints: ['address'] });
    expect(
      JSON.stringify(still.map(({ panels, notes }) => [panels.map(({ readings }) => readings), notes])),
    ).not.toContain('Is this right');
  });

  it('is left out where another of its cell was chosen, and the sheet says how many are', () => {
    const pins = [{ id: 'trail-knee', aspect: 'value', ...top }] as const;
    const chosen = reportOf({ then, now: { ...now, pins }, goals: SHIPPED_GOALS, placing: STEADY });
    const { now: side, then: earlier, comparisons } = cellOf(chosen, top);
    expect(linesOf(side).map(({ label }) => label)).toEqual(['Trail knee']);
    expect(linesOf(earlier).map(({ label }) => label)).toEqual(['Trail knee']);
    expect(comparisons.map(({ label }) => label)).toEqual(['Trail knee', 'Trail knee, change from address']);
    expect(side.readings.filter(({ pin }) => pin !== 'not pinned').map(({ label, pin }) => [label, pin])).toEqual([
      ['Trail knee', 'pinned'],
      ['Trail knee, change from address', 'with its value'],
    ]);
    expect(leftOutWords(side)).toMatch(/^\d+ more are not on the still\./);
  });
});
