import { describe, expect, test } from 'vitest';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import type { ReadingKey, UncertaintySource, Verdict } from '../../../core/model/reading.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import type { ShownComparison } from '../../../core/report/shown-reading.ts';
import { whatChanged } from '../../../core/report/what-changed.ts';
import { STEADY } from '../../support/steady.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';

const NAMED = { address: 2, top: 9, impact: 14 } as const;
const now = markedSwing('2026-06-12', [markedClip('down-the-line', NAMED)]);
const then = markedSwing('2026-05-12', [markedClip('down-the-line', { address: 1, top: 7 }, 20)]);
const [real] = reportOf({ now, then, goals: SHIPPED_GOALS, placing: STEADY }).comparisons;

const TOP = { aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;

/** A real comparison that says something else. */
function said(
  key: ReadingKey,
  verdict: Verdict,
  texts: Pick<ShownComparison, 'then' | 'now' | 'difference'>,
  by: { readonly size?: number; readonly from?: UncertaintySource; readonly showsWithThree?: number | null } = {},
): ShownComparison {
  const { size = 10, from = 'camera', showsWithThree = null } = by;
  if (real === undefined) throw new Error('nothing is compared');
  const budget = [{ source: from, u: 1 }];
  const [before, after] = [real.comparison.then, real.comparison.now].map((each) => ({ ...each, ...key, budget }));
  if (before === undefined || after === undefined) throw new Error('both are there');
  const judged = { verdict, difference: size, u: 1, coverage: 2, showsWithThree, then: before, now: after };
  return { ...real, ...texts, verdict, comparison: { ...real.comparison, ...key, ...judged } };
}

const knee = said(
  { ...TOP, id: 'trail-knee' },
  'changed',
  { then: '149° ± 4°', now: '166° ± 4°', difference: '+17° ± 6°' },
  { size: 17 },
);
const shoulders = said(
  { ...TOP, id: 'shoulder-to-spine' },
  'changed',
  { then: '105° ± 3°', now: '91° ± 3°', difference: '−14° ± 4°' },
  { size: -14 },
);
const rise = said(
  { ...TOP, id: 'hip-rise', checkpoint: 'impact' },
  'worth a look',
  { then: '−3.4 ± 1.2 cm', now: '2.0 ± 1.2 cm', difference: '+5.4 ± 1.7 cm' },
  { size: 5.4 },
);
const NONE = { then: '1°', now: '1°', difference: '0°' };

describe('what a comparison says first', () => {
  test('each change with both numbers and their difference, the clearest first, with where it is read', () => {
    const told = whatChanged({ comparisons: [shoulders, rise, knee] });
    expect(told?.sentences).toEqual([
      { key: { ...TOP, id: 'trail-knee' }, words: 'Trail knee at top, down the line: 149° → 166°, 17° more' },
      {
        key: { ...TOP, id: 'shoulder-to-spine' },
        words: 'Shoulders to spine at top, down the line: 105° → 91°, 14° less',
      },
      {
        key: { ...TOP, id: 'hip-rise', checkpoint: 'impact' },
        words: 'Hip rise at impact, down the line: −3.4 → 2.0 cm, 5.4 cm more: worth a look',
      },
    ]);
  });

  test('never more than three, and a reading with its change from address once', () => {
    const change = said({ ...TOP, id: 'trail-knee', aspect: 'change' }, 'changed', NONE, { size: 99 });
    const others = (['lead-knee', 'back-incline', 'shoulder-line'] as const).map((id) =>
      said({ ...TOP, id }, 'changed', NONE, { size: 3 }),
    );
    const told = whatChanged({ comparisons: [knee, change, ...others] });
    expect(told?.sentences).toHaveLength(3);
    expect(told?.sentences.filter(({ key }) => key?.id === 'trail-knee')).toEqual([
      expect.objectContaining({ key: expect.objectContaining({ aspect: 'change' }) as unknown }),
    ]);
  });

  test('that nothing changed for sure is a sentence too; nothing compared is none', () => {
    const told = whatChanged({ comparisons: [said({ ...TOP, id: 'lead-knee' }, 'no change', NONE)] });
    expect(told?.sentences).toEqual([{ key: null, words: 'Nothing changed for sure' }]);
    expect(whatChanged({ comparisons: [] })).toBeNull();
  });
});

describe('the rest, in a line each', () => {
  test('what did not change is named', () => {
    const same = (['lead-knee', 'back-incline'] as const).map((id) => said({ ...TOP, id }, 'no change', NONE));
    expect(whatChanged({ comparisons: same })?.noChange).toBe(
      'No change in 2: lead knee at top, down the line; back incline at top, down the line.',
    );
    expect(whatChanged({ comparisons: [knee] })?.noChange).toBeNull();
  });

  test('of what nobody can tell it says what would tell more, what helps most readings first', () => {
    const unsure = (from: UncertaintySource, showsWithThree: number | null) =>
      said({ ...TOP, id: 'lead-knee' }, "can't tell", NONE, { from, showsWithThree });
    const ways = (all: readonly ShownComparison[]) => whatChanged({ comparisons: all })?.cantTell;
    expect(ways([unsure('camera', 2), unsure('camera', 2), unsure('placing', 2)])).toBe(
      "Can't tell in 3. To tell more, mark three swings of each lesson; or mark the ground in both clips.",
    );
    expect(ways([unsure('placing', null)])).toBe(
      "Can't tell in 1. To tell more, zoom in to place the points, and do a repeat check.",
    );
    expect(ways([unsure('definition', null)])).toBe("Can't tell in 1.");
    expect(ways([knee])).toBeNull();
  });

  test('together they leave no comparison out', () => {
    const report = reportOf({ now, then, goals: SHIPPED_GOALS, placing: STEADY });
    const told = whatChanged(report);
    const counted = [told?.noChange, told?.cantTell].map((line) => Number(/in (\d+)/.exec(line ?? '')?.[1] ?? 0));
    const found = report.comparisons.filter(({ comparison: { verdict } }) =>
      ['changed', 'worth a look'].includes(verdict),
    );
    expect(counted.reduce((sum, each) => sum + each, found.length)).toBe(report.comparisons.length);
  });
});
