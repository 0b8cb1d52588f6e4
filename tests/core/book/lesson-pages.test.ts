import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { EMPTY_PAGE, USUAL_LIBRARY } from '../../../core/model/lesson-page.ts';
import type { LessonPage } from '../../../core/model/lesson-page.ts';
import { expectThrown } from '../../support/trouble.ts';
import { samplePage } from '../swing-file/sample-swing.ts';
import { addSample, addSampleClip } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const NOBODY = '00000000-0000-4000-8000-000000000000';
const edit = (swingId: string, before: LessonPage, after: LessonPage) =>
  ({ kind: 'page', swingId, before, after }) as const;

function laterLesson(book: Book, studentId: string, date: string) {
  const lesson = book.addLesson({ studentId, date, club: 'Driver', handedness: 'right', note: '' });
  return { lesson, swing: book.addSwing({ lessonId: lesson.id, label: 'Swing 1' }) };
}

describe('a lesson page', () => {
  test('is one for all swings of a lesson, an edit, and there again after the book was closed', () => {
    const book = newBook();
    const { lesson, swing } = addSample(book);
    const other = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    expect(book.openSwing(swing.id).page).toEqual(EMPTY_PAGE);
    book.makeEdit(edit(swing.id, EMPTY_PAGE, samplePage()));
    book.close();
    const again = reopen(book.folder);
    for (const id of [swing.id, other.id]) expect(again.openSwing(id).page).toEqual(samplePage());
    again.undoEdit(lesson.id);
    expect(again.openSwing(other.id).page).toEqual(EMPTY_PAGE);
    again.redoEdit(lesson.id);
    expect(again.openSwing(other.id).page).toEqual(samplePage());
  });

  test('with a fourth key thought, a place beside the sketch or an unknown reading is refused, and nothing changes', () => {
    const book = newBook();
    const { swing } = addSample(book);
    book.setPage(swing.id, samplePage());
    const [drill] = samplePage().drills;
    const wrong: unknown[] = [
      { ...samplePage(), keyThoughts: ['1', '2', '3', '4'] },
      { ...samplePage(), drills: [{ ...drill, sketch: [[{ x: 0, y: 0.76 }]] }] },
      { ...samplePage(), drills: [{ ...drill, title: ' ' }] },
      { ...samplePage(), findings: [{ reading: { ...samplePage().findings[0]?.reading, id: 'mood' }, words: '' }] },
      { ...samplePage(), more: 1 },
    ];
    for (const page of wrong) expectThrown(() => book.setPage(swing.id, page as LessonPage), 'bad-request', /page/);
    expectThrown(() => book.setPage(NOBODY, samplePage()), 'no-such-record', /swing/);
    expect(book.openSwing(swing.id).page).toEqual(samplePage());
  });

  test('goes into the bin with its lesson, comes back with it, and emptied leaves not a byte', async () => {
    const book = newBook();
    const { lesson, swing } = addSample(book);
    const secret = 'Quetzalcoatlus northropi';
    await addSampleClip(book, swing.id);
    book.makeEdit(edit(swing.id, EMPTY_PAGE, { ...samplePage(), keyThoughts: [secret] }));
    const entry = book.moveToBin('lesson', lesson.id, '2026-06-01T10:00:00.000Z');
    book.putBack(entry.id);
    expect(book.openSwing(swing.id).page.keyThoughts).toEqual([secret]);
    expect(book.listEdits(lesson.id).done.map(({ kind }) => kind)).toEqual(['page']);
    book.moveToBin('lesson', lesson.id, '2026-06-01T10:00:00.000Z');
    const found = () =>
      readdirSync(book.folder, { recursive: true, withFileTypes: true })
        .filter((file) => file.isFile())
        .filter((file) => readFileSync(join(file.parentPath, file.name)).includes(secret));
    expect(found()).not.toEqual([]);
    book.emptyBin();
    book.close();
    reopen(book.folder).close();
    expect(found().map(({ name }) => name)).toEqual([]);
  });

  test('of the lesson before is found for the next one, with the swing that it is about', async () => {
    const book = newBook();
    const { student, lesson, swing } = addSample(book);
    await addSampleClip(book, swing.id);
    const second = book.addSwing({ lessonId: lesson.id, label: 'Swing 2' });
    await addSampleClip(book, second.id, { content: 'another' });
    book.setPage(second.id, samplePage());
    const stranger = addSample(book, 'Kim');
    book.setPage(stranger.swing.id, { ...samplePage(), keyThoughts: ['of another student'] });

    const next = laterLesson(book, student.id, '2026-06-02');
    const expected = { lessonId: lesson.id, date: '2026-05-12', page: samplePage(), swingId: second.id };
    expect(book.earlierPage(next.swing.id)).toEqual(expected);
    const sameDay = laterLesson(book, student.id, '2026-05-12');
    expect(book.earlierPage(sameDay.swing.id)).toEqual(expected);
    book.removeSwing(second.id);
    expect(book.earlierPage(next.swing.id)).toEqual({ ...expected, swingId: swing.id });
    expect(book.earlierPage(swing.id)).toBeNull();
    book.setPage(swing.id, EMPTY_PAGE);
    expect(book.earlierPage(next.swing.id)).toBeNull();
    expectThrown(() => book.earlierPage(NOBODY), 'no-such-record', /swing/);
  });
});

test("the coach's drills and letter are kept in the book; at first there are none, and a usual letter", () => {
  const book = newBook();
  expect(book.readLibrary()).toEqual(USUAL_LIBRARY);
  const library = { drills: samplePage().drills, letter: { subject: 'a', opening: 'b\nc', closing: '' } };
  book.writeLibrary(library);
  expect(book.readLibrary()).toEqual(library);
  expectThrown(
    () => book.writeLibrary({ ...library, drills: [{ ...library.drills[0], id: 'x' }] } as never),
    'bad-request',
    /drills/,
  );
  expect(book.readLibrary()).toEqual(library);
});
