import { expect, test } from 'vitest';
import { bareSwingOf } from '../../../core/model/swing.ts';
import { addSample, addSampleClip, sampleFrame } from './sample.ts';
import { newBook } from './with-book.ts';

test('a swing is opened with the other swings of its lesson that have a clip, in their order, and with no other', async () => {
  const book = newBook();
  const { lesson, swing } = addSample(book);
  const [second, third] = ['Swing 2', 'Swing 3'].map((label) => book.addSwing({ lessonId: lesson.id, label }));
  if (second === undefined || third === undefined) throw new Error('two more');
  book.addSwing({ lessonId: lesson.id, label: 'without a clip' });
  const elsewhere = addSample(book, 'Kim');
  for (const [i, { id }] of [third, second, swing, elsewhere.swing].entries()) {
    const clip = await addSampleClip(book, id, { view: 'face-on', content: `clip ${String(i)}` });
    book.setCheckpoint(clip.id, 'top', sampleFrame(2));
  }
  const marked = bareSwingOf(book.openSwing(swing.id));
  expect(marked.label).toBe('Swing 1');
  expect(marked.besides?.map(({ label }) => label)).toEqual(['Swing 2', 'Swing 3']);
  expect(marked.besides?.map(({ clips }) => clips.map(({ checkpoints }) => Object.keys(checkpoints)))).toEqual([
    [['top']],
    [['top']],
  ]);
  // Of a clip nothing goes along but what is measured.
  expect(JSON.stringify(marked.besides)).not.toContain('sha256');
  expect(bareSwingOf(book.openSwing(elsewhere.swing.id)).besides).toBeUndefined();
});
