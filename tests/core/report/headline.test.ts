import { describe, expect, test } from 'vitest';
import { headlineOf } from '../../../core/report/headline.ts';
import type { ShownComparison } from '../../../core/report/shown-reading.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { stillPages } from '../../../core/report/stills.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import type { Verdict } from '../../../core/model/reading.ts';
import { STEADY } from '../../support/steady.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';

const NAMED = { address: 2, top: 9, impact: 14 } as const;
const now = markedSwing('2026-06-12', [markedClip('down-the-line', NAMED)]);
const then = markedSwing('2026-05-12', [markedClip('down-the-line', { address: 1, top: 7 }, 20)]);
const SOURCE = { now, then, goals: SHIPPED_GOALS, placing: STEADY };
const [real] = reportOf(SOURCE).comparisons;

/** A real comparison that says something else. */
function said(
  label: string,
  verdict: Verdict,
  difference: number,
  texts: { then: string; now: string },
): ShownComparison {
  if (real === undefined) throw new Error('nothing is compared');
  return {
    ...real,
    label,
    verdict,
    ...texts,
    comparison: { ...real.comparison, verdict, difference, u: 1, coverage: 2 },
  };
}

describe('what a student reads first', () => {
  const knee = said('Trail knee', 'changed', 17, { then: '149° ± 4°', now: '166° ± 4°' });
  const head = said('Head shift', 'worth a look', 40, { then: '−3.4 ± 1.2 cm', now: '2.0 ± 1.2 cm' });

  test('is the clearest change, with its numbers and without their ±', () => {
    const less = said('Back incline', 'changed', -5, { then: '30° ± 2°', now: '25° ± 2°' });
    expect(headlineOf([less, knee, head], 'top')).toBe('Trail knee at top: 149° → 166°, changed');
  });

  test('is what is worth a look where nothing changed for sure, with its unit', () => {
    const shoulders = said('Shoulder line', "can't tell", 50, { then: '1° ± 40°', now: '51° ± 40°' });
    expect(headlineOf([shoulders, head], 'lead-arm-level')).toBe(
      'Head shift at lead arm level: −3.4 cm → 2.0 cm, worth a look',
    );
  });

  test('says so where nothing changed, and nothing where nothing was compared', () => {
    expect(headlineOf([{ ...knee, comparison: { ...knee.comparison, verdict: 'no change' } }], 'impact')).toBe(
      'Nothing changed for sure at impact',
    );
    expect(headlineOf([], 'impact')).toBeNull();
  });
});

describe('a still of then and now', () => {
  const pageOf = (pins: typeof now.pins = []) => {
    const report = reportOf({ ...SOURCE, now: { ...now, ...(pins === undefined ? {} : { pins }) } });
    const [page] = stillPages(report, { checkpoints: ['top'], views: ['down-the-line'] });
    if (page === undefined) throw new Error('there is no still');
    return { report, page };
  };

  test('has no row for what nobody can tell: one line names all of it', () => {
    const { report, page } = pageOf();
    const unsure = report.comparisons.filter(
      ({ comparison: { verdict, checkpoint } }) => verdict === "can't tell" && checkpoint === 'top',
    );
    expect(unsure.length).toBeGreaterThan(0);
    expect(page.comparisons.map(({ comparison }) => comparison.verdict)).not.toContain("can't tell");
    const line = page.notes.find((note) => note.startsWith("Can't tell: ")) ?? '';
    for (const { label } of unsure) expect(line.toLowerCase()).toContain(label.toLowerCase());
  });

  test('keeps the row where the coach ticked that reading', () => {
    const ticked = pageOf().report.comparisons.find(
      ({ comparison: { verdict, checkpoint, aspect } }) =>
        verdict === "can't tell" && checkpoint === 'top' && aspect === 'value',
    );
    if (ticked === undefined) throw new Error('all can be told');
    const { id, aspect, view, checkpoint } = ticked.comparison;
    const { page } = pageOf([{ id, aspect, view, checkpoint }]);
    expect(page.comparisons.map(({ label }) => label)).toContain(ticked.label);
  });

  test('draws no more than three readings on a picture, all of them in its table', () => {
    const { page } = pageOf();
    for (const { drawn, which } of page.panels) {
      expect(drawn.length).toBeLessThanOrEqual(3);
      for (const reading of drawn)
        expect(page.comparisons.map(({ comparison }) => comparison[which])).toContain(reading);
    }
  });
});
