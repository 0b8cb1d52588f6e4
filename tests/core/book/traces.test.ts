import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { migrate } from '../../../core/book/migrate.ts';
import { MIGRATIONS } from '../../../core/book/migrations/all.ts';
import { traces } from '../../../core/book/migrations/0009-traces.ts';
import { namesFound, searchBytes } from '../../support/byte-search.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { addSampleClip, sampleFrame } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

/** Words that stand nowhere else. What was changed since is of the student as well. */
const WORDS = {
  'first name': 'Thessaly',
  'earlier name': 'Quorndon',
  'last name': 'Wrexhamby',
  note: 'keeps the grip of a falconer',
  'earlier note': 'swings like a semaphore',
  label: 'third bucket of Tuesday',
  'clip name': 'zephyr-0417.mp4',
  'clip bytes': 'bytes of a clip that shows one person',
} as const;
const ALL = Object.keys(WORDS).sort();
const found = (book: { readonly folder: string }): string[] => namesFound(searchBytes([book.folder], WORDS));

/** A student with one of all that is named or typed, among others whose rows come and go beside these. */
async function addRemembered(book: Book): Promise<{ studentId: string; lessonId: string; swingId: string }> {
  addOthers(book, 0);
  const fields = { firstName: 'Quorndon', lastName: 'Wrexhamby', handedness: 'left' } as const;
  const student = book.addStudent(fields);
  const facts = { date: '2026-05-12', club: '7 iron', handedness: 'left' } as const;
  // As long as a page of the file, so that it spreads over several.
  const lesson = book.addLesson({
    studentId: student.id,
    ...facts,
    note: 'swings like a semaphore, '.repeat(150),
  });
  const swing = book.addSwing({ lessonId: lesson.id, label: WORDS.label });
  const clip = await addSampleClip(book, swing.id, { name: WORDS['clip name'], content: WORDS['clip bytes'] });
  for (let x = 1; x < 40; x += 1) {
    const marks = (at: number) => ({
      frame: sampleFrame(1),
      points: { ball: { x: at, y: 0, hidden: false } },
      shapes: [],
    });
    book.makeEdit({ kind: 'marks', swingId: swing.id, clipId: clip.id, before: marks(x - 1), after: marks(x) });
  }
  book.changeStudent(student.id, { ...fields, firstName: WORDS['first name'] });
  book.changeLesson(lesson.id, { ...facts, note: 'keeps the grip of a falconer, '.repeat(130) });
  addOthers(book, 60);
  return { studentId: student.id, lessonId: lesson.id, swingId: swing.id };
}

function addOthers(book: Book, first: number): void {
  const facts = { date: '2026-05-12', club: 'Driver', handedness: 'right' } as const;
  book.database.write(() => {
    for (let count = first; count < first + 60; count += 1) {
      const fields = { firstName: `Other ${String(count)}`, lastName: 'Example', handedness: 'right' } as const;
      book.addLesson({ studentId: book.addStudent(fields).id, ...facts, note: 'x'.repeat(count * 20) });
    }
  });
}

describe('after a removal', () => {
  test('nothing of the student stands in any file of the book, now or after it is closed', async () => {
    const book = newBook();
    const { studentId } = await addRemembered(book);
    // The names and notes of before are in the journal still; whether they are is not for a coach to know.
    expect(found(book)).toEqual(ALL);
    book.removeStudent(studentId);
    expect(found(book)).toEqual([]);
    expect(book.listStudents()).toHaveLength(120);
    book.close();
    expect(found(book)).toEqual([]);
  });

  test('nothing of a lesson, a swing or a clip stands there, and the rest of the student does', async () => {
    const book = newBook();
    const first = await addRemembered(book);
    book.removeClip(book.openSwing(first.swingId).clips[0]?.id ?? '');
    expect(found(book)).not.toContain('clip name');
    expect(found(book)).not.toContain('clip bytes');
    expect(found(book)).toContain('label');
    book.removeSwing(first.swingId);
    expect(found(book)).not.toContain('label');
    expect(found(book)).toContain('note');
    book.removeLesson(first.lessonId);
    expect(found(book)).toEqual(['first name', 'last name']);
  });

  test('the bytes of a clip stay while another clip has the same', async () => {
    const book = newBook();
    const { studentId } = await addRemembered(book);
    const other = book.listStudents().find(({ student }) => student.firstName === 'Other 3');
    const swing = book.addSwing({ lessonId: other?.lessons[0]?.lesson.id ?? '', label: 'Swing 1' });
    const { sha256 } = await addSampleClip(book, swing.id, { content: WORDS['clip bytes'] });
    book.removeStudent(studentId);
    expect(found(book)).toEqual(['clip bytes']);
    expect(book.clipContents()).toEqual(new Set([sha256]));
    book.removeSwing(swing.id);
    expect(found(book)).toEqual([]);
    expect(book.clipContents()).toEqual(new Set());
  });

  test('a repeat check on frames of the student stays, and names nobody', async () => {
    const book = newBook();
    const { studentId, swingId } = await addRemembered(book);
    const clipId = book.openSwing(swingId).clips[0]?.id ?? '';
    const ball = [
      { x: 1, y: 2 },
      { x: 2, y: 2 },
    ];
    const frames = [{ clipId, frame: sampleFrame(1), placings: { ball } }];
    const check = book.addRepeatCheck({ at: '2026-05-12T09:30:00.000Z', frames, namings: [] });
    book.removeStudent(studentId);
    expect(found(book)).toEqual([]);
    expect(book.listRepeatChecks()).toEqual([check]);
  });

  test('the program is told to clear its own, until it says that it has', async () => {
    const book = newBook();
    const { swingId } = await addRemembered(book);
    book.forgetTracesOutside();
    expect(book.hasTracesOutside()).toBe(false);
    expect(() => {
      book.removeSwing('0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10');
    }).toThrow();
    expect(book.hasTracesOutside()).toBe(false);
    book.removeSwing(swingId);
    book.close();
    expect(reopen(book.folder).hasTracesOutside()).toBe(true);
  });
});

describe('what could not be cleared at once is cleared at the next opening', () => {
  test('after a kill between the removal and the clearing', async () => {
    const book = newBook();
    const { studentId } = await addRemembered(book);
    book.close();
    const child = join(import.meta.dirname, 'children', 'killed-after-removal.ts');
    const { signal, stderr } = spawnSync(process.execPath, [child, book.folder, studentId], { encoding: 'utf8' });
    expect({ signal, stderr }).toEqual({ signal: 'SIGKILL', stderr: '' });
    expect(found(book)).not.toEqual([]);
    const again = reopen(book.folder);
    expect(found(book)).toEqual([]);
    expect(again.listStudents()).toHaveLength(120);
    expect(again.hasTracesOutside()).toBe(true);
  });

  test('while somebody reads the book by other means: the removal itself stands', { timeout: 40_000 }, async () => {
    const book = newBook();
    const { studentId } = await addRemembered(book);
    const reader = new Sqlite(join(book.folder, 'book.sqlite'), { readonly: true });
    reader.exec('BEGIN');
    expect(reader.prepare('SELECT count(*) FROM student').pluck().get()).toBe(121);
    book.removeStudent(studentId);
    expect(book.listStudents()).toHaveLength(120);
    expect(found(book)).not.toEqual([]);
    reader.close();
    book.close();
    reopen(book.folder);
    expect(found(book)).toEqual([]);
  });

  test('in a book of before, whose removals left everything', () => {
    const folder = join(temporaryFolder(), 'book');
    mkdirSync(folder);
    const before = new Sqlite(join(folder, 'book.sqlite'));
    before.pragma('foreign_keys = ON');
    migrate(
      before,
      MIGRATIONS.filter(({ version }) => version < traces.version),
    );
    before.exec(`
      INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Thessaly', 'Wrexhamby', 'left');
      INSERT INTO lesson (id, student_id, date, club, handedness, note)
        VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '${'keeps the grip of a falconer, '.repeat(300)}');
      DELETE FROM student;
    `);
    before.close();
    expect(found({ folder })).toEqual(['first name', 'last name', 'note']);
    reopen(folder);
    expect(found({ folder })).toEqual([]);
  });
});
