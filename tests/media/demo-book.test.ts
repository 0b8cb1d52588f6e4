import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { marksAt } from '../../core/model/swing.ts';
import { CHECKPOINTS, VIEWS } from '../../core/model/words.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

// Made in a minute, but a maker that was killed is waited for up to four. The window's tests work on copies of this book: it is made here, beside other tests, and they find it made.
test('the demo book holds one student with two lessons, both views of each, named and marked at every checkpoint', async () => {
  const folder = join(temporaryFolder(), 'book');
  await copyDemoBook(folder);
  const book = openBook(folder);
  try {
    const students = book.listStudents();
    expect(students).toHaveLength(1);
    const lessons = students[0]?.lessons ?? [];
    expect(lessons.map(({ swings }) => swings.length)).toEqual([1, 1]);
    for (const { swings } of lessons) {
      const { clips } = book.openSwing(swings[0]?.swing.id ?? '');
      expect(clips.map(({ view }) => view).toSorted()).toEqual(VIEWS.toSorted());
      for (const clip of clips)
        for (const checkpoint of CHECKPOINTS) {
          expect(clip.checkpoints[checkpoint]).toBeDefined();
          expect(Object.keys(marksAt(clip, checkpoint)?.points ?? {}).length).toBeGreaterThan(10);
        }
    }
  } finally {
    book.close();
  }
}, 420_000);
