import { describe, expect, test } from 'vitest';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { EMPTY_PAGE, type LessonPage } from '../../../core/model/lesson-page.ts';
import type { Goals, WantedRange } from '../../../core/model/goals.ts';
import { sameReading, type MeasuredReading } from '../../../core/model/reading.ts';
import { reportOf, type LessonReport } from '../../../core/report/lesson-report.ts';
import {
  LESSON_CAUTIONS,
  offeredFindings,
  otherReadings,
  placesOf,
  sentLesson,
} from '../../../core/report/sent-lesson.ts';
import { inventedSwing } from '../measure/invented-swing.ts';

const SHOULDERS = { id: 'shoulder-to-spine', aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;

/** Goals that want the shoulders where they surely are not. */
function wanting(part: Partial<WantedRange>): Goals {
  const range: WantedRange = {
    ...{
      reading: SHOULDERS.id,
      aspect: SHOULDERS.aspect,
      views: [],
      checkpoints: ['top'],
      clubs: [],
      from: null,
      to: null,
    },
    ...{ unit: 'deg', words: '', basis: '', miss: { low: 'the words for low', high: 'the words for high' } },
    ...part,
  };
  return { ...EMPTY_GOALS, wanted: [range] };
}

const reported = (goals: Goals): LessonReport => reportOf({ now: inventedSwing(), then: null, goals });
const shoulders = (report: LessonReport): MeasuredReading => {
  const found = report.now.find((reading) => sameReading(reading, SHOULDERS));
  if (found?.state !== 'measured') throw new Error('the invented swing has no shoulders at top');
  return found;
};
const [low, high] = shoulders(reported(EMPTY_GOALS)).interval;
const finding: LessonPage = { ...EMPTY_PAGE, findings: [{ reading: SHOULDERS, words: ' Stay in posture ' }] };

describe('findings that are offered', () => {
  test.each([
    ['high', { to: low - 1 }, 'the words for high'],
    ['low', { from: high + 1 }, 'the words for low'],
  ] as const)(
    'are readings that surely miss their goal, too %s, in the goals’ own words for it',
    (side, limits, words) => {
      const [offer, ...more] = offeredFindings(reported(wanting(limits)), EMPTY_PAGE);
      expect(offer).toMatchObject({ reading: SHOULDERS, side, words });
      expect(more).toEqual([]);
    },
  );

  test('are none that may be on target, none that are taken, and have no words where the goals have none', () => {
    for (const limits of [{ to: high }, { from: low }, { from: (low + high) / 2, to: (low + high) / 2 }])
      expect(offeredFindings(reported(wanting(limits)), EMPTY_PAGE)).toEqual([]);
    const missed = { to: low - 1 };
    expect(offeredFindings(reported(wanting(missed)), finding)).toEqual([]);
    const [offer] = offeredFindings(reported(wanting({ ...missed, miss: { low: 'x', high: '' } })), EMPTY_PAGE);
    expect(offer?.words).toBe('');
  });

  test('stand beside every other reading of use, but for what is a finding already', () => {
    const report = reported(EMPTY_GOALS);
    const all = otherReadings(report, EMPTY_PAGE);
    expect(all.length).toBeGreaterThan(5);
    expect(otherReadings(report, finding)).toEqual(all.filter(({ reading }) => !sameReading(reading, SHOULDERS)));
  });
});

describe('what a lesson says', () => {
  test('is the number as it is read, how it stands to the goal, and the coach’s words', () => {
    const [sent] = sentLesson(reported(wanting({ to: low - 1 })), finding, null).findings;
    expect(sent).toMatchObject({ goal: 'too high', change: null, words: 'Stay in posture' });
    expect(sent?.number).toMatch(/^\d+(\.\d+)?° ± \d/);
    const value = Number.parseFloat(sent?.number ?? '');
    // Written to a degree at the coarsest.
    expect(Math.abs(value - shoulders(reported(EMPTY_GOALS)).value)).toBeLessThanOrEqual(0.5);
  });

  test('has no number for what is not read, and never fewer than the cautions', () => {
    const missing: LessonPage = {
      ...EMPTY_PAGE,
      findings: [{ reading: { ...SHOULDERS, checkpoint: 'through' }, words: '' }],
    };
    const lesson = sentLesson(reported(EMPTY_GOALS), missing, null);
    expect(lesson.findings[0]).toMatchObject({ number: null, goal: null, change: null });
    for (const caution of LESSON_CAUTIONS) expect(lesson.cautions).toContain(caution);
  });

  test('opens with what was asked for, and whether it changed; not compared where there is nothing to compare with', () => {
    const both = reportOf({ now: inventedSwing(), then: inventedSwing(), goals: EMPTY_GOALS });
    const asked = { date: '2026-04-14', page: { ...finding, keyThoughts: ['Turn.', ' '] } };
    const compared = sentLesson(both, EMPTY_PAGE, { ...asked, report: both }).asked;
    expect(compared?.date).toBe('14 April 2026');
    expect(compared?.keyThoughts).toEqual(['Turn.']);
    expect(compared?.findings[0]?.outcome).toMatch(/^then .* now .* difference 0.*: can't tell$/);
    const alone = sentLesson(both, EMPTY_PAGE, { ...asked, report: null }).asked;
    expect(alone?.findings[0]?.outcome).toMatch(/^not compared/);
  });

  test('is shown on each frame of a finding once, in the order of the findings', () => {
    const at = (checkpoint: 'top' | 'address') => ({ reading: { ...SHOULDERS, checkpoint }, words: '' });
    expect(placesOf([at('top'), at('address'), at('top')]).map(({ checkpoint }) => checkpoint)).toEqual([
      'top',
      'address',
    ]);
  });
});
