import { describe, expect, test } from 'vitest';
import { EMPTY_GOALS } from '../../../../core/measure/goals/goals.ts';
import type { BookSwing } from '../../../../core/model/book.ts';
import type { Goals, WantedRange } from '../../../../core/model/goals.ts';
import { markedSwingOf } from '../../../../core/model/swing.ts';
import { reportOf } from '../../../../core/report/lesson-report.ts';
import { readingsOnPicture } from '../../../../renderer/bench/surface/readings-on-picture.ts';
import type { PictureReadings } from '../../../../renderer/bench/state/picture-readings.ts';
import { within } from '../../../support/within.ts';
import { clipOf, swingOf } from '../../sample-swing.ts';

/** A back from the tailbone to the neck, 300 px up and 180 px toward the ball: by hand atan(180 / 300) = 31.0 degrees. */
function marked(pins: BookSwing['pins'] = []): BookSwing {
  const points = {
    tailbone: { x: 900, y: 700, hidden: false },
    'neck-base': { x: 720, y: 400, hidden: false },
    'lead-hip': { x: 905, y: 400, hidden: false },
    'lead-knee': { x: 860, y: 700, hidden: false },
    'lead-ankle': { x: 900, y: 1010, hidden: false },
  };
  const clip = {
    ...clipOf('x'),
    ...{ width: 1920, height: 1080, view: 'down-the-line' as const },
    checkpoints: { address: { index: 1, pts: 1, ticks: 1 } },
    marks: [{ frame: { index: 1, pts: 1 }, points, shapes: [] }],
  };
  return { ...swingOf('a', [clip]), pins };
}

const BACK = { id: 'back-incline', view: 'down-the-line', checkpoint: 'address', aspect: 'value' } as const;

function wanting(from: number, to: number): Goals {
  const range: WantedRange = {
    ...{ reading: BACK.id, aspect: BACK.aspect, views: [BACK.view], checkpoints: [BACK.checkpoint], clubs: [] },
    ...{ from, to, unit: 'deg', words: '', basis: '', miss: { low: '', high: '' } },
  };
  return { ...EMPTY_GOALS, wanted: [range] };
}

function labels(swing: BookSwing, which: PictureReadings, goals = EMPTY_GOALS, index = 1): readonly string[] {
  const report = reportOf({ now: markedSwingOf(swing), then: null, goals });
  const items = readingsOnPicture(report, which, { swing, clipId: 'x', index, look: 'plain', goals });
  return items.flatMap((item) => (item.kind === 'label' ? [item.text] : []));
}

describe('readings on the picture', () => {
  test('all stand there with name and number, and none where none are wanted', () => {
    const all = labels(marked(), 'all');
    expect(all).toContainEqual(expect.stringMatching(/^Back incline 31° ± \d+°$/));
    expect(all).toContainEqual(expect.stringMatching(/^Lead knee \d+° ± \d+°$/));
    expect(labels(marked(), 'none')).toEqual([]);
  });

  test('the chosen ones are those that the coach ticked', () => {
    expect(labels(marked([BACK]), 'chosen')).toEqual([expect.stringMatching(/^Back incline /)]);
  });

  test('where nothing is ticked, they are those that something is wanted of, with a sign how they stand', () => {
    expect(labels(marked(), 'chosen')).toEqual([]);
    expect(labels(marked(), 'chosen', wanting(0, 90))).toEqual([expect.stringMatching(/ \u2713$/)]);
    expect(labels(marked(), 'chosen', wanting(60, 90))).toEqual([expect.stringMatching(/ \u2193$/)]);
    expect(labels(marked(), 'chosen', wanting(0, 5))).toEqual([expect.stringMatching(/ \u2191$/)]);
    expect(labels(marked(), 'chosen', wanting(31, 31))).toEqual([expect.stringMatching(/ \u2248$/)]);
  });

  test('the goal is drawn with a chosen reading: a dotted line and what is on target; by sign and tone how it stands', () => {
    const drawn = (goals: Goals, which: PictureReadings = 'chosen') => {
      const swing = marked();
      const report = reportOf({ now: markedSwingOf(swing), then: null, goals });
      return readingsOnPicture(report, which, { swing, clipId: 'x', index: 1, look: 'plain', goals });
    };
    const [wedge] = drawn(wanting(60, 90)).filter((item) => item.kind === 'wedge');
    // Toward the ball is to the left here: upright (-90°) less 90° to 60°, about the tailbone.
    within(wedge?.start ?? NaN, -Math.PI, 1e-9);
    within(wedge?.end ?? NaN, (-5 / 6) * Math.PI, 1e-9);
    expect(wedge?.centre).toEqual({ x: 900, y: 700 });
    expect(drawn(wanting(60, 90)).filter((item) => 'weight' in item && item.weight === 'goal')).toHaveLength(1);
    const tones = (goals: Goals) => drawn(goals).flatMap((item) => (item.kind === 'label' ? [item.tone] : []));
    expect([tones(wanting(60, 90)), tones(wanting(0, 90)), tones(wanting(31, 31))]).toEqual([
      ['missed'],
      ['good'],
      [undefined],
    ]);
    expect(drawn(wanting(60, 90), 'all').filter((item) => item.kind === 'wedge')).toEqual([]);
  });

  test('a frame without a name has none', () => {
    expect(labels(marked([BACK]), 'all', EMPTY_GOALS, 2)).toEqual([]);
  });
});
