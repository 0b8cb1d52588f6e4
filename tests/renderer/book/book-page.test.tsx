// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen, within } from '@testing-library/react';
import { describe, expect, test } from 'vitest';
import type { StudentOverview } from '../../../core/model/book.ts';
import { rememberSwings } from '../../../renderer/book/state/last-swing.ts';
import { swingOf as openedSwing } from '../sample-swing.ts';
import { BookPage } from '../../../renderer/book/book-page.tsx';
import type { ProgramFacts, Requests } from '../../../electron/ipc/contract.ts';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';

beginEmpty();

type Swings = StudentOverview['lessons'][number]['swings'];

function studentOf(id: string, firstName: string, swings: readonly Swings[]): StudentOverview {
  const lessons = swings.map((each, place) => ({
    lesson: {
      ...{ id: `${id} ${String(place)}`, studentId: id, date: '2026-05-12', club: '7 iron', note: '' },
      handedness: 'right' as const,
    },
    swings: each,
  }));
  return { student: { id, firstName, lastName: '', handedness: 'right' }, lessons };
}

function swingOf(label: string, clips: Swings[number]['clips']): Swings[number] {
  return { swing: { id: label, lessonId: 'lesson', label }, clips };
}
const FACTS = { strays: [], place: 'en-GB' } as unknown as ProgramFacts;
const FACE_ON: Swings[number]['clips'][number] = { id: 'clip', view: 'face-on', named: {} };

function book(...students: StudentOverview[]) {
  setApp({ students, studentId: students[0]?.student.id ?? null });
  return show(<BookPage />);
}

describe('the page of the book', () => {
  test('says that it opens while nothing is known of it', () => {
    show(<BookPage />);
    expect(screen.getByText('Opening.')).toBeTruthy();
    expect(screen.queryByText('No students yet.')).toBeNull();
  });

  test('that is empty says how to begin, and nothing can be begun twice', async () => {
    const { hand } = book();
    expect(screen.getByRole('heading', { name: 'No students yet.' })).toBeTruthy();
    await hand.click(screen.getByRole('button', { name: 'Look at a made-up student' }));
    expect(program.next('demo/make').input).toHaveProperty('jobId');
    for (const button of screen.getAllByRole('button')) expect(button).toHaveProperty('disabled', true);
  });

  test('with one student says what comes after the student', () => {
    book(studentOf('a', 'Robin', []));
    expect(screen.getByText(/^No lesson yet\. Press “Add a lesson”/)).toBeTruthy();
    expect(screen.getByRole('button', { name: /Robin/ }).textContent).toBe('Robinno lesson yet');
  });

  test('leads to the swing that was open last, and to none that is gone', async () => {
    rememberSwings();
    setApp({ swing: openedSwing('Swing 2') });
    setApp({ swing: null });
    const robin = studentOf('a', 'Robin', [[swingOf('Swing 2', [FACE_ON])]]);
    const { hand, unmount } = book(robin);
    await hand.click(screen.getByRole('button', { name: /^Go on with Robin, 12 May 2026, 7 iron, Swing 2$/ }));
    expect(program.next('swing/open').input).toEqual({ id: 'Swing 2' });
    unmount();
    book(studentOf('b', 'Mia', []));
    expect(screen.queryByRole('button', { name: /^Go on with/ })).toBeNull();
    expect(localStorage.getItem('last-swing')).toBeNull();
  });

  test('with many finds one by name, and says so where nobody has it', async () => {
    const few = ['Ada', 'Bo', 'Cem', 'Dina', 'Eve', 'Finn', 'Gil'].map((name) => studentOf(name, name, []));
    const { hand, unmount } = book(...few);
    expect(screen.queryByLabelText('Find a student')).toBeNull();
    unmount();
    book(...few, studentOf('h', 'Hanna', []));
    await hand.type(screen.getByLabelText('Find a student'), 'han');
    const list = within(screen.getByRole('navigation', { name: 'Students' }));
    expect(list.getAllByRole('listitem').map(({ textContent }) => textContent)).toEqual(['Hannano lesson yet']);
    await hand.type(screen.getByLabelText('Find a student'), 'x');
    expect(screen.getByText('No student of that name.')).toBeTruthy();
  });

  test('with several lists all, and shows the lessons of the one that is pressed', async () => {
    const { hand } = book(studentOf('a', 'Robin', []), studentOf('b', 'Kim', [[], []]));
    const list = within(screen.getByRole('navigation', { name: 'Students' }));
    expect(list.getAllByRole('listitem').map(({ textContent }) => textContent)).toEqual([
      'Robinno lesson yet',
      'Kim2 lessons, last 12 May 2026',
    ]);
    await hand.click(list.getByRole('button', { name: /Kim/ }));
    expect(screen.getByRole('region', { name: 'Lessons of Kim' })).toBeTruthy();
    expect(list.getByRole('button', { name: /Kim/ }).getAttribute('aria-current')).toBe('true');
  });

  test('stays on the student that was pressed while a new one was kept', async () => {
    const { hand } = book(studentOf('a', 'Robin', []), studentOf('b', 'Kim', []));
    await hand.click(screen.getByRole('button', { name: 'Add a student' }));
    await hand.type(screen.getByLabelText('First name'), 'Sam');
    await hand.click(screen.getByRole('button', { name: 'Add student' }));
    const asked = program.next('student/add');
    expect(asked.input).toEqual({ firstName: 'Sam', lastName: '', handedness: 'right' });
    await hand.keyboard('{Escape}');
    await hand.click(screen.getByRole('button', { name: /Kim/ }));
    await act(() => asked.answer<'student/add'>({ id: 'c', firstName: 'Sam', lastName: '', handedness: 'right' }));
    expect(app.get().studentId).toBe('b');
  });
});

describe('the card of a lesson', () => {
  test('without a swing asks for one, and that is its main button', () => {
    book(studentOf('a', 'Robin', [[]]));
    expect(screen.getByText('Press “Add a swing”: its clips come next.')).toBeTruthy();
  });

  test('names the swing that has no clip yet, and the views of those that have', () => {
    book(studentOf('a', 'Robin', [[swingOf('Swing 1', [FACE_ON]), swingOf('Swing 2', [])]]));
    expect(screen.getByText(/^Press “.?Swing 2.?” to add the clips you filmed\.$/)).toBeTruthy();
    expect(screen.getByText('face on')).toBeTruthy();
    expect(screen.getByText('no clip yet')).toBeTruthy();
  });

  test('with clips in all swings asks for nothing', () => {
    book(studentOf('a', 'Robin', [[swingOf('Swing 1', [FACE_ON])]]));
    expect(screen.queryByText(/^Press “/)).toBeNull();
  });

  test('takes a swing away and offers it back', async () => {
    const { hand } = book(studentOf('a', 'Robin', [[swingOf('Swing 1', [])]]));
    await hand.click(screen.getByRole('button', { name: /^Remove .?Swing 1/ }));
    const moved = program.next('bin/move');
    expect(moved.input).toEqual({ kind: 'swing', id: 'Swing 1' });
    const entry = { id: 'entry', kind: 'swing', name: 'Robin, Swing 1', removedAt: '' } as const;
    await act(() => moved.answer<'bin/move'>(entry));
    await act(() => program.next('program/facts').answer<'program/facts'>(FACTS));
    await act(() => program.next('student/list').answer<'student/list'>([]));
    const [message] = app.get().messages;
    expect(message?.text).toMatch(/Swing 1.? is in the bin for 30 days\.$/);
    message?.nextStep?.run();
    expect(program.next('bin/put-back').input).toEqual({ id: 'entry' });
  });
});

describe('the bin', () => {
  const ENTRIES = (['a', 'b'] as const).map((id, place) => ({
    ...{ id, kind: 'lesson', name: `Lesson ${id}`, removedAt: '', daysLeft: place },
  })) satisfies Requests['bin/list']['out'];

  async function openBin() {
    const { hand } = book();
    await hand.click(screen.getByRole('button', { name: 'Bin' }));
    await act(() => program.next('bin/list').answer<'bin/list'>(ENTRIES));
    return hand;
  }

  test('lists what was removed and how long it stays, also when the book is empty', async () => {
    await openBin();
    expect(screen.getByText('Lesson, goes today')).toBeTruthy();
    expect(screen.getByText('Lesson, 1 day left')).toBeTruthy();
  });

  test('that is opened at once lists what is still on its way into it', async () => {
    const { hand } = book(studentOf('a', 'Robin', [[swingOf('Swing 1', [])]]));
    await hand.click(screen.getByRole('button', { name: /^Remove .?Swing 1/ }));
    await hand.click(screen.getByRole('button', { name: 'Bin' }));
    const moved = program.next('bin/move');
    expect(program.asked).toEqual([]);
    await act(() => moved.answer<'bin/move'>({ id: 'a', kind: 'swing', name: 'Robin, Swing 1', removedAt: '' }));
    await act(() => program.next('bin/list').answer<'bin/list'>(ENTRIES));
    expect(screen.getByText('Lesson, goes today')).toBeTruthy();
  });

  test('removes for good only once that is said again, and asks anew what lies in it', async () => {
    const hand = await openBin();
    await hand.click(screen.getByRole('button', { name: /^Remove .?Lesson b.? for good/ }));
    expect(program.asked).toEqual([]);
    await hand.click(screen.getByRole('button', { name: 'Remove for good' }));
    const emptied = program.next('bin/empty');
    expect(emptied.input).toEqual({ id: 'b' });
    await act(() => emptied.answer<'bin/empty'>(null));
    await act(() => program.next('bin/list').answer<'bin/list'>([]));
    expect(screen.getByText('The bin is empty.')).toBeTruthy();
  });

  test('is emptied of all', async () => {
    const hand = await openBin();
    await hand.click(screen.getByRole('button', { name: 'Empty the bin' }));
    await hand.click(screen.getAllByRole('button', { name: 'Empty the bin' }).at(-1) ?? document.body);
    expect(program.next('bin/empty').input).toEqual({ id: null });
  });
});

test('a lesson says what was worked on where its page names it, and shows a place for each named frame', () => {
  const clips = [{ ...FACE_ON, named: { top: 3, impact: 5 } }];
  const of = studentOf('a', 'Robin', [[swingOf('Swing 1', clips)]]);
  const reading = { id: 'trail-knee', aspect: 'value', view: 'face-on', checkpoint: 'top' } as const;
  const page = { findings: [{ reading, words: '' }], keyThoughts: [] };
  const { container } = book({ ...of, lessons: of.lessons.map((lesson) => ({ ...lesson, page })) });
  expect(screen.getByText('Worked on: Trail knee at top, face on.')).toBeTruthy();
  // One of the student, two of the lesson.
  expect(container.querySelectorAll('canvas')).toHaveLength(3);
});
