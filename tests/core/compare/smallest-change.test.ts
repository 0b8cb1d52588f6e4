import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import { compareSwings } from '../../../core/compare/compare-swings.ts';
import { smallestChange } from '../../../core/compare/smallest-change.ts';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import { smallestChangeWords } from '../../../core/report/shown-reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { ALL_MARKS, offScene } from '../../support/off-scene.ts';
import { ON_LINE } from '../../support/off-camera.ts';
import { within } from '../../support/within.ts';
import { measuredReading, swingOf } from '../measure/build-swing.ts';

const OFF = { 'down-the-line': ON_LINE, 'face-on': ON_LINE };
const swing: MarkedSwing = offScene(demoScenario('then'), OFF, { ...ALL_MARKS, path: false }).seen;

describe('the smallest change that would show in a reading alone', () => {
  it('is what a comparison with the same swing on another day says, and with three of them', () => {
    const now = { ...swing, date: '2026-06-12' };
    const besides = ['2', '3'].map((label) => ({ label, clips: swing.clips }));
    const [alone, three] = [
      compareSwings(swing, now, EMPTY_GOALS).comparisons,
      compareSwings({ ...swing, besides }, { ...now, besides }, EMPTY_GOALS).comparisons,
    ];
    expect(alone.length).toBeGreaterThan(70);
    for (const [i, comparison] of alone.entries()) {
      const found = smallestChange(comparison.now);
      if (found === null) throw new Error('it was compared');
      within(found.one / comparison.shows, 1, 1e-9);
      within(found.three / (comparison.showsWithThree ?? Number.NaN), 1, 1e-9);
      // Swings that agree make it smaller, never larger. What tells nothing counts in no mean.
      const many = three[i];
      if (many?.now.swings?.values.length === 3 && many.then.swings?.values.length === 3)
        expect(many.shows).toBeLessThanOrEqual(found.three * (1 + 1e-9));
    }
  });

  it('is said in the unit of the reading, and not of pixels', () => {
    const back = readSwing(swing).find(({ id, checkpoint }) => id === 'back-incline' && checkpoint === 'top');
    expect(back?.state === 'measured' ? smallestChangeWords(back) : '').toMatch(
      /^Between two lessons a change of \d+(\.\d)?° or more would show; with three swings a lesson, \d+(\.\d)?°\.$/,
    );
    const pixels = swingOf({
      view: 'down-the-line',
      placed: { address: { tailbone: [300, 600] }, impact: { tailbone: [340, 570] } },
    });
    expect(smallestChangeWords(measuredReading(pixels, 'hip-rise'))).toBeNull();
  });
});
