import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { daysLeft, endOfStay } from '../../../core/book/bin-stay.ts';
import { findStrays } from '../../../core/book/strays.ts';
import type { BinKind } from '../../../core/model/bin.ts';
import { namesFound, searchBytes } from '../../support/byte-search.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

import * as v from 'valibot';
const ANY = v.unknown();
const NOW = '2026-05-12T10:00:00.000Z';

/** A student with all that can hang on one: two swings compared, clips, names, marks, pins, edits done and undone. */
async function addWhole(book: Book) {
  const sample = addSample(book);
  const then = book.addSwing({ lessonId: sample.lesson.id, label: 'Swing 2' });
  const clip = await addSampleClip(book, sample.swing.id, { content: 'bytes of a clip' });
  await addSampleClip(book, then.id, { content: 'other bytes' });
  const of = { swingId: sample.swing.id, clipId: clip.id };
  const marks = (x: number) => ({
    frame: sampleFrame(1),
    points: { ball: { x, y: 1 / 3, hidden: false } },
    shapes: [],
  });
  for (const x of [1, 2, 3]) book.makeEdit({ kind: 'marks', ...of, before: marks(x - 1), after: marks(x + 0.1) });
  book.makeEdit({
    kind: 'checkpoint',
    ...of,
    checkpoint: 'top',
    before: null,
    after: { ...sampleFrame(2), ticks: 3004 },
  });
  book.undoEdit(sample.lesson.id);
  book.rememberThen(sample.swing.id, then.id);
  return { ...sample, then, clip };
}

/** All that the book says, but for the bin. */
const told = (book: Book) => {
  const students = book.listStudents();
  const swings = students.flatMap(({ lessons }) => lessons).flatMap((lesson) => lesson.swings);
  return {
    students,
    swings: swings.map(({ swing }) => [book.openSwing(swing.id), book.thenOf(swing.id)]),
    indexes: swings.flatMap(({ clips }) => clips.map(({ id }) => book.clipIndex(id))),
    rows: MARK_TABLES.map((table) => book.database.all(ANY, `SELECT * FROM ${table} ORDER BY 1, 2`)),
  };
};
const MARK_TABLES = ['edit', 'clip_frames', 'checkpoint', 'marked_frame', 'placed_point', 'shape', 'comparison'];

describe('the bin', () => {
  test.each(['student', 'lesson', 'swing', 'clip'] as const)(
    'gives a %s back as it was, to the last bit',
    async (kind) => {
      const book = newBook();
      const whole = await addWhole(book);
      addSample(book, 'Zoe');
      const before = told(book);
      const files = readdirSync(book.media.path).sort();
      const entry = book.moveToBin(kind, whole[kind].id, NOW);
      expect(entry).toMatchObject({ kind, removedAt: NOW });
      expect(told(book)).not.toEqual(before);
      expect(readdirSync(book.media.path).sort()).toEqual(files);
      expect(findStrays(book)).toMatchObject({ unnamed: [], lost: [] });
      expect(book.listBin()).toEqual([entry]);
      const again = reopen(closed(book));
      expect(again.putBack(entry.id)).toEqual(entry);
      expect(told(again)).toEqual(before);
      expect(again.listBin()).toEqual([]);
      expect(again.undoEdit(whole.lesson.id)).not.toBeNull();
    },
  );

  test('names what lies in it, what was removed last first', async () => {
    const book = newBook();
    const { student, lesson, swing, clip } = await addWhole(book);
    const kinds: [BinKind, string][] = [
      ['clip', clip.id],
      ['swing', swing.id],
      ['lesson', lesson.id],
      ['student', student.id],
    ];
    for (const [place, [kind, id]] of kinds.entries())
      book.moveToBin(kind, id, NOW.replace('10:', `1${String(place)}:`));
    expect(book.listBin().map(({ name }) => name)).toEqual([
      'Robin Example',
      'Robin, 12 May 2026, 7 iron',
      'Robin, 12 May 2026, Swing 1',
      'Robin, 12 May 2026, swing.mp4',
    ]);
  });

  test('gives nothing back whose place is gone or taken, and says what to do; then it does', async () => {
    const book = newBook();
    const { student, swing, clip } = await addWhole(book);
    const clipEntry = book.moveToBin('clip', clip.id, NOW);
    const other = await addSampleClip(book, swing.id, { content: 'a third' });
    expectThrown(() => book.putBack(clipEntry.id), 'bad-request', /another clip of that view/);
    book.removeClip(other.id);
    const swingEntry = book.moveToBin('swing', swing.id, NOW);
    expectThrown(() => book.putBack(clipEntry.id), 'bad-request', /Put the swing back first/);
    const studentEntry = book.moveToBin('student', student.id, NOW);
    expectThrown(() => book.putBack(swingEntry.id), 'bad-request', /Put the lesson back first/);
    for (const { id } of [studentEntry, swingEntry, clipEntry]) book.putBack(id);
    expect(book.openSwing(swing.id).clips.map(({ id }) => id)).toEqual([clip.id]);
    expectThrown(() => book.putBack(clipEntry.id), 'no-such-record', /not in the bin/);
    expectThrown(() => book.moveToBin('clip', clipEntry.id, NOW), 'no-such-record', /clip/);
  });

  test('leaves out what hung on something that is gone meanwhile, and keeps the order of what came after', async () => {
    const book = newBook();
    const { lesson, swing, then } = await addWhole(book);
    const entry = book.moveToBin('swing', swing.id, NOW);
    book.removeSwing(then.id);
    // It takes the number that the swing had.
    const later = book.addSwing({ lessonId: lesson.id, label: 'Swing 3' });
    book.putBack(entry.id);
    expect(book.thenOf(swing.id)).toBeNull();
    const [listed] = book.listStudents()[0]?.lessons ?? [];
    expect(listed?.swings.map((each) => each.swing.id).sort()).toEqual([swing.id, later.id].sort());
    expect(book.openSwing(swing.id).clips[0]?.marks).toHaveLength(1);
  });

  test('is emptied of what has lain in it for 30 days, or of all, and nothing of that stays', async () => {
    const book = newBook();
    const word = { name: 'Thessaly', bytes: 'bytes of a clip that shows one person' };
    const { student, swing } = addSample(book, word.name);
    await addSampleClip(book, swing.id, { content: word.bytes });
    const found = (): string[] => namesFound(searchBytes([book.folder], word));
    book.moveToBin('student', student.id, NOW);
    expect(found()).toEqual(['bytes', 'name']);
    const days = (count: number) => new Date(Date.parse(NOW) + count * 24 * 3600 * 1000);
    book.emptyBin(endOfStay(days(29.9)));
    expect(book.listBin()).toHaveLength(1);
    expect(book.listBin().map((entry) => daysLeft(entry, days(29.5)))).toEqual([1]);
    expect(book.listBin().map((entry) => daysLeft(entry, days(2.5)))).toEqual([28]);
    expect(book.listBin().map((entry) => daysLeft(entry, days(-5)))).toEqual([30]);
    expect(book.listBin().map((entry) => daysLeft(entry, days(31)))).toEqual([0]);
    book.emptyBin(endOfStay(days(30.1)));
    expect(book.listBin()).toEqual([]);
    expect(found()).toEqual([]);
    const other = addSample(book, word.name);
    const entry = book.moveToBin('student', other.student.id, NOW);
    book.removeFromBin(entry.id);
    expect(found()).toEqual([]);
    expectThrown(() => book.removeFromBin(entry.id), 'no-such-record');
  });

  test('keeps a copy that a clip of the book uses as well, whichever of the two goes first', async () => {
    for (const first of ['the bin', 'the book'] as const) {
      const book = newBook();
      const [one, other] = [addSample(book, 'Ada'), addSample(book, 'Bo')];
      for (const { swing } of [one, other]) await addSampleClip(book, swing.id);
      book.moveToBin('student', one.student.id, NOW);
      if (first === 'the bin') book.emptyBin();
      else book.removeStudent(other.student.id);
      expect(readdirSync(book.media.path)).toHaveLength(1);
      if (first === 'the bin') book.removeStudent(other.student.id);
      else book.emptyBin();
      expect(readdirSync(book.media.path)).toHaveLength(0);
    }
  });
});

function closed(book: Book): string {
  book.close();
  return book.folder;
}
