import { expect, test } from 'vitest';
import type { StudentOverview } from '../../../core/model/book.ts';
import type { View } from '../../../core/model/words.ts';
import { gapBefore, swingsBefore, viewGap } from '../../../renderer/sheet/earlier-swings.ts';

const STUDENT = { id: 'ada', firstName: 'Ada', lastName: '', handedness: 'right' } as const;

function lessonOf(date: string, ...swings: readonly (readonly View[])[]): StudentOverview['lessons'][number] {
  const lesson = { id: date, studentId: STUDENT.id, date, club: '7 iron', handedness: 'right', note: '' } as const;
  return {
    lesson,
    swings: swings.map((views, place) => ({
      swing: { id: `${date} ${String(place + 1)}`, lessonId: date, label: `Swing ${String(place + 1)}` },
      clips: views.map((view) => ({ id: `${date} ${view}`, view, named: {} })),
    })),
  };
}

/** The swing of 12 May as it is opened, with clips of these views. */
function openSwing(...views: readonly View[]) {
  const { lesson, swings } = lessonOf('2026-05-12', views);
  const [entry] = swings;
  if (entry === undefined) throw new Error('no swing');
  return { student: STUDENT, lesson, ...entry };
}

const NOW = lessonOf('2026-05-12', ['down-the-line']);
const book = (...lessons: StudentOverview['lessons']): readonly StudentOverview[] => [{ student: STUDENT, lessons }];
const gap = (...lessons: StudentOverview['lessons']) => gapBefore(openSwing('down-the-line'), book(...lessons));

test('an earlier lesson without clips is where they are to be added, not a reason for another lesson', () => {
  expect(gap(NOW, lessonOf('2026-04-14', []))).toEqual({
    sentence: 'To compare, add the clips of Swing 1 of 14 April 2026, 7 iron: it has none yet.',
    leadsTo: { swingId: '2026-04-14 1', label: 'Open Swing 1 of 14 April 2026, 7 iron' },
  });
});

test('another swing of the same day without clips is told where no earlier lesson is', () => {
  const today = lessonOf('2026-05-12', ['down-the-line'], []);
  expect(gap(today).leadsTo?.swingId).toBe('2026-05-12 2');
  expect(gap(today, lessonOf('2026-04-14', [])).leadsTo?.swingId).toBe('2026-04-14 1');
});

test('an earlier lesson without a swing needs one', () => {
  expect(gap(NOW, lessonOf('2026-04-14'))).toEqual({
    sentence:
      'To compare, the lesson of 14 April 2026, 7 iron needs a swing: “Students” leads there, then “Add a swing”.',
    leadsTo: null,
  });
});

test('from the earliest swing the way is to the next later one', () => {
  const later = gap(lessonOf('2026-07-01', []), lessonOf('2026-06-02', ['face-on']), NOW);
  expect(later.sentence).toContain('This is the earliest swing of Ada.');
  expect(later.leadsTo?.swingId).toBe('2026-06-02 1');
});

test('only a student with nothing else is sent to add a lesson', () => {
  expect(gap(NOW)).toEqual({
    sentence:
      'To compare, Ada needs an earlier lesson or another swing with a clip: “Students” leads there, then “Add a lesson”.',
    leadsTo: null,
  });
  expect(gapBefore(openSwing('face-on'), []).sentence).toContain('Add a lesson');
});

test('a swing filmed from elsewhere can be chosen, and both say what is missing', () => {
  const then = { ...lessonOf('2026-04-14', ['face-on']) };
  const [entry] = then.swings;
  if (entry === undefined) throw new Error('no swing');
  const now = openSwing('down-the-line');
  expect(swingsBefore(now, book(NOW, then))).toEqual([
    { value: '2026-04-14 1', label: '14 April 2026, 7 iron, Swing 1 (face on only)', sharesView: false },
  ]);
  const earlier = { student: STUDENT, lesson: then.lesson, ...entry };
  expect(viewGap(now, earlier)).toEqual({
    sentence: 'To compare, add a clip face on here, or one down the line to Swing 1 of 14 April 2026, 7 iron.',
    leadsTo: { swingId: '2026-04-14 1', label: 'Open Swing 1 of 14 April 2026, 7 iron' },
  });
  expect(viewGap(openSwing('down-the-line', 'face-on'), earlier)).toBeNull();
  expect(swingsBefore(openSwing('face-on'), book(NOW, then))[0]?.label).toBe('14 April 2026, 7 iron, Swing 1');
});

test('what comes later, or has no clip, is nothing to compare with', () => {
  const lessons = book(lessonOf('2026-06-02', ['down-the-line']), NOW, lessonOf('2026-04-14', []));
  expect(swingsBefore(openSwing('down-the-line'), lessons)).toEqual([]);
});
