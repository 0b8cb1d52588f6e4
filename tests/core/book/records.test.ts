import { describe, expect, test } from 'vitest';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { bareSwingOf } from '../../../core/model/swing.ts';
import type { LessonFields } from '../../../core/book/lessons.ts';
import type { StudentFields } from '../../../core/book/students.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const NOBODY = '00000000-0000-4000-8000-000000000000';

describe('students', () => {
  test('a new book has no student', () => {
    expect(newBook().listStudents()).toEqual([]);
  });

  test('a student comes back as added, also after the book was closed, with names trimmed', () => {
    const book = newBook();
    const student = book.addStudent({ firstName: '  Robin ', lastName: ' van Example', handedness: 'left' });
    expect(student).toEqual({ id: student.id, firstName: 'Robin', lastName: 'van Example', handedness: 'left' });
    book.close();
    expect(reopen(book.folder).listStudents()).toEqual([{ student, lessons: [] }]);
  });

  test('students stand by last then first name, whatever the case', () => {
    const book = newBook();
    for (const [firstName, lastName] of [
      ['Zoe', 'alder'],
      ['Ben', 'Birch'],
      ['amy', 'Birch'],
      ['Sky', ''],
    ] as const)
      book.addStudent({ firstName, lastName, handedness: 'right' });
    expect(book.listStudents().map(({ student }) => student.firstName)).toEqual(['Sky', 'Zoe', 'amy', 'Ben']);
  });

  test('a change replaces the record and touches no other', () => {
    const book = newBook();
    const { student: first } = addSample(book, 'Ash');
    const { student: second } = addSample(book, 'Bo');
    const changed = book.changeStudent(first.id, { firstName: 'Ashe', lastName: '', handedness: 'left' });
    expect(changed).toEqual({ id: first.id, firstName: 'Ashe', lastName: '', handedness: 'left' });
    expect(book.listStudents().map(({ student }) => student)).toEqual([changed, second]);
  });

  test('a student is a child as long as the coach says so, and consent of a lesson stays when the lesson is changed', () => {
    const book = newBook();
    const { student, lesson, swing } = addSample(book);
    const { id, ...fields } = student;
    expect(book.changeStudent(id, { ...fields, child: true })).toEqual({ ...student, child: true });
    book.makeEdit({ kind: 'consent', swingId: swing.id, before: false, after: true });
    const { date, club, handedness } = lesson;
    book.changeLesson(lesson.id, { date, club, handedness, note: 'Wind' });
    book.close();
    const again = reopen(book.folder);
    const kept = again.openSwing(swing.id);
    expect([kept.student.child, kept.lesson.consent, kept.lesson.note]).toEqual([true, true, 'Wind']);
    expect(again.changeStudent(id, fields)).toEqual(student);
    expect(again.openSwing(swing.id).student).toEqual(student);
  });

  test('eighty characters are a name, counted as people count; eighty-one are not', () => {
    const book = newBook();
    const name = '🏌'.repeat(80);
    expect(book.addStudent({ firstName: name, lastName: name, handedness: 'right' }).firstName).toBe(name);
    const longer: StudentFields = { firstName: `${name}x`, lastName: '', handedness: 'right' };
    expectThrown(
      () => book.addStudent(longer),
      'bad-request',
      /^The student cannot be taken: firstName must have at most 80 characters\.$/,
    );
  });

  test.each<[string, unknown]>([
    ['an empty name', { firstName: '', lastName: '', handedness: 'right' }],
    ['a name of spaces', { firstName: ' \t ', lastName: '', handedness: 'right' }],
    ['a name of two lines', { firstName: 'Ro\nbin', lastName: '', handedness: 'right' }],
    ['a number as name', { firstName: 7, lastName: '', handedness: 'right' }],
    ['a long last name', { firstName: 'Robin', lastName: 'x'.repeat(81), handedness: 'right' }],
    ['a third handedness', { firstName: 'Robin', lastName: '', handedness: 'both' }],
    ['nothing', null],
  ])('%s is refused and nothing is stored', (_, fields) => {
    const book = newBook();
    // The window's requests are unknown values: what the types forbid can still arrive.
    const add: (fields: never) => unknown = book.addStudent;
    expectThrown(() => Reflect.apply(add, undefined, [fields]), 'bad-request');
    expect(book.listStudents()).toEqual([]);
  });
});

describe('lessons and swings', () => {
  test('the overview holds lessons newest first and swings in the order they were added', () => {
    const book = newBook();
    const student = book.addStudent({ firstName: 'Robin', lastName: '', handedness: 'right' });
    const lessonOn = (date: string) =>
      book.addLesson({ studentId: student.id, date, club: 'Driver', handedness: 'right', note: 'two\nlines' });
    const [april, june, may] = [lessonOn('2026-04-30'), lessonOn('2026-06-01'), lessonOn('2026-05-12')];
    const second = book.addSwing({ lessonId: may.id, label: 'Swing 2' });
    const first = book.addSwing({ lessonId: may.id, label: 'Swing 1' });
    const swing = (of: typeof first) => ({ swing: of, clips: [] });
    expect(book.listStudents()).toEqual([
      {
        student,
        lessons: [
          { lesson: june, swings: [] },
          { lesson: may, swings: [swing(second), swing(first)] },
          { lesson: april, swings: [] },
        ],
      },
    ]);
  });

  test('the overview holds which frames of each clip are named, and what the page of a lesson says', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    book.setCheckpoint(clip.id, 'top', sampleFrame(2));
    const page = { ...EMPTY_PAGE, keyThoughts: ['Turn level'] };
    book.setPage(swing.id, page);
    const [lesson] = book.listStudents()[0]?.lessons ?? [];
    expect(lesson?.swings[0]?.clips).toEqual([{ id: clip.id, view: clip.view, named: { top: 2 } }]);
    expect(lesson?.page).toEqual({ findings: [], keyThoughts: ['Turn level'] });
    book.setPage(swing.id, EMPTY_PAGE);
    expect(book.listStudents()[0]?.lessons[0]).not.toHaveProperty('page');
  });

  test('a changed lesson stays with its student', () => {
    const book = newBook();
    const { student, lesson } = addSample(book);
    const fields: LessonFields = { date: '2024-02-29', club: ' Putter ', handedness: 'left', note: 'short game' };
    const changed = book.changeLesson(lesson.id, fields);
    expect(changed).toEqual({ id: lesson.id, studentId: student.id, ...fields, club: 'Putter' });
  });

  test.each(['2026-02-29', '2026-13-01', '12.05.2026', '', '2026-5-1'])('a lesson on %j is refused', (date) => {
    const book = newBook();
    const { student } = addSample(book);
    const lesson = { studentId: student.id, date, club: 'Driver', handedness: 'right', note: '' } as const;
    expectThrown(() => book.addLesson(lesson), 'bad-request', /real day, written like 2026-05-12/);
  });

  test('an id that is not there is said to be not there, whatever it looks like', () => {
    const book = newBook();
    const fields = { date: '2026-05-12', club: 'Driver', handedness: 'right', note: '' } as const;
    const person = { firstName: 'Robin', lastName: '', handedness: 'right' } as const;
    for (const id of [NOBODY, '', "' OR 1=1 --"]) {
      expectThrown(() => book.changeStudent(id, person), 'no-such-record', /student/);
      expectThrown(() => book.removeStudent(id), 'no-such-record', /student/);
      expectThrown(() => book.addLesson({ studentId: id, ...fields }), 'no-such-record', /student/);
      expectThrown(() => book.changeLesson(id, fields), 'no-such-record', /lesson/);
      expectThrown(() => book.removeLesson(id), 'no-such-record', /lesson/);
      expectThrown(() => book.addSwing({ lessonId: id, label: 'Swing 1' }), 'no-such-record', /lesson/);
      expectThrown(() => book.openSwing(id), 'no-such-record', /swing/);
      expectThrown(() => book.removeSwing(id), 'no-such-record', /swing/);
      expectThrown(() => book.findClip(id), 'no-such-record', /clip/);
      expectThrown(() => book.clipIndex(id), 'no-such-record', /clip/);
      expectThrown(() => book.removeClip(id), 'no-such-record', /clip/);
      expectThrown(() => book.readMarks(id), 'no-such-record', /clip/);
      expectThrown(() => book.setView(id, 'face-on'), 'no-such-record', /clip/);
      expectThrown(() => book.setCaptureRate(id, null), 'no-such-record', /clip/);
      expectThrown(() => book.setCheckpoint(id, 'top', null), 'no-such-record', /clip/);
      expectThrown(() => book.setCheckpoint(id, 'top', sampleFrame(0)), 'no-such-record', /clip/);
      const marks = { frame: sampleFrame(0), points: {}, shapes: [] };
      expectThrown(() => book.saveMarks(id, marks), 'no-such-record', /clip/);
    }
  });

  test('an opened swing is one whole value, and its marked form tells only the first name', async () => {
    const book = newBook();
    const { student, lesson, swing } = addSample(book);
    const face = await addSampleClip(book, swing.id, { view: 'face-on' });
    const line = await addSampleClip(book, swing.id, { view: 'down-the-line', content: 'other' });
    const top = book.setCheckpoint(face.id, 'top', sampleFrame(3));
    const marks = { frame: sampleFrame(3), points: { ball: { x: 1.5, y: -2, hidden: false } }, shapes: [] };
    book.saveMarks(face.id, marks);
    const opened = book.openSwing(swing.id);
    expect(opened).toEqual({
      student,
      lesson,
      swing,
      clips: [
        { ...line, checkpoints: {}, marks: [] },
        { ...face, checkpoints: { top }, marks: [marks] },
      ],
      page: EMPTY_PAGE,
      pins: [],
    });
    const marked = bareSwingOf(opened);
    expect(JSON.stringify(marked)).not.toContain('Example');
    const { width, height, timebase, nominalRate, captureRate } = face;
    expect(marked.clips[1]).toEqual({
      ...{ view: 'face-on', width, height, timebase, nominalRate, captureRate },
      checkpoints: { top: { ...sampleFrame(3), ticks: 3002 } },
      marks: [marks],
    });
  });
});

describe('what a swing is compared with', () => {
  const two = () => {
    const book = newBook();
    const { lesson, swing: then } = addSample(book);
    const now = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    return { book, then, now };
  };

  test('is none at first, is remembered over a restart, and can be none again', () => {
    const { book, then, now } = two();
    expect(book.thenOf(now.id)).toBeNull();
    book.rememberThen(now.id, then.id);
    book.close();
    const again = reopen(book.folder);
    expect([again.thenOf(now.id), again.thenOf(then.id)]).toEqual([then.id, null]);
    again.rememberThen(now.id, null);
    expect(again.thenOf(now.id)).toBeNull();
  });

  test('goes with the swing that is removed, either of them', () => {
    for (const removed of ['now', 'then'] as const) {
      const all = two();
      all.book.rememberThen(all.now.id, all.then.id);
      all.book.removeSwing(all[removed].id);
      expect(all.book.thenOf(all.now.id)).toBeNull();
    }
  });

  test('is another swing that is there, or it is refused and stays as it was', () => {
    const { book, then, now } = two();
    book.rememberThen(now.id, then.id);
    expectThrown(() => book.rememberThen(now.id, now.id), 'bad-request', /compared with itself/);
    expectThrown(() => book.rememberThen(now.id, NOBODY), 'no-such-record', /./);
    expectThrown(() => book.rememberThen(NOBODY, now.id), 'no-such-record', /./);
    expect(book.thenOf(now.id)).toBe(then.id);
  });
});
