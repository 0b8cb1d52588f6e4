import { expect, test, vi } from 'vitest';
import type { Edit } from '../../../../core/model/edit.ts';
import type { FrameMarks } from '../../../../core/model/mark.ts';
import { joinedWrite } from '../../../../core/model/edit.ts';
import type { EditWrite } from '../../../../core/model/edit.ts';
import { WriteRow } from '../../../../electron/ipc/write-row.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { keepMarks, redo, settleWrites, undo } from '../../../../renderer/swing/state/edit-actions.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { addSample, addSampleClip, sampleFrame, sampleIndex } from '../../../core/book/sample.ts';
import { newBook } from '../../../core/book/with-book.ts';
import { WRITTEN, controlProgram } from '../../controlled-program.ts';

/** A row of small changes by a held key: the window's steps back and those of a real book are the same. */

async function openLesson() {
  const book = newBook();
  const { swing, lesson } = addSample(book);
  const clip = await addSampleClip(book, swing.id);
  const writes: EditWrite[] = [];
  const carryOut = (write: EditWrite): void => {
    writes.push(write);
    book.writeEdit(write);
  };
  const row = new WriteRow<EditWrite>({ carryOut, join: joinedWrite });
  controlProgram((name, input) =>
    name === 'edit/write' ? row.put(input as EditWrite).then(() => ({ ok: true, value: WRITTEN })) : null,
  );
  setApp({ swing: book.openSwing(swing.id), indexes: { [clip.id]: sampleIndex() }, history: emptyHistory() });
  const ballAt = (index: number, x: number): FrameMarks => ({
    ...{ frame: sampleFrame(index), shapes: [] },
    points: { ball: { x, y: 1 / 3, hidden: false } },
  });
  /** What the window shows and can take back is what the book holds and can. */
  const expectSame = async (): Promise<readonly Edit[]> => {
    await settleWrites();
    expect(app.get().swing).toEqual(book.openSwing(swing.id));
    const { done, undone } = book.listEdits(lesson.id);
    expect(app.get().history).toEqual({ done, undone });
    return done;
  };
  return { writes, expectSame, ballAt, keep: (marks: FrameMarks, of: string | null) => keepMarks(clip.id, marks, of) };
}

test('sixty steps of a held key are one edit, and far fewer writes', async () => {
  const { writes, expectSame, ballAt, keep } = await openLesson();
  keep(ballAt(1, 0), null);
  for (let step = 1; step <= 60; step += 1) keep(ballAt(1, step), 'ball');
  expect(await expectSame()).toHaveLength(2);
  expect(writes.length).toBeLessThanOrEqual(3);
  undo();
  await expectSame();
  expect(app.get().swing?.clips[0]?.marks).toEqual([ballAt(1, 0)]);
  redo();
  await expectSame();
  expect(app.get().swing?.clips[0]?.marks).toEqual([ballAt(1, 60)]);
});

test('another mark, another change between, a step back, or a rest begin an edit of their own', async () => {
  const { expectSame, ballAt, keep } = await openLesson();
  const now = vi.spyOn(performance, 'now').mockReturnValue(0);
  keep(ballAt(1, 1), 'ball');
  keep(ballAt(1, 2), 'ball');
  expect(await expectSame()).toHaveLength(1);
  keep(ballAt(1, 3), 'clubhead');
  expect(await expectSame()).toHaveLength(2);
  keep(ballAt(1, 4), null);
  keep(ballAt(1, 5), 'ball');
  expect(await expectSame()).toHaveLength(4);
  undo();
  keep(ballAt(1, 6), 'ball');
  expect(await expectSame()).toHaveLength(4);
  now.mockReturnValue(5000);
  keep(ballAt(1, 7), 'ball');
  expect(await expectSame()).toHaveLength(5);
  keep(ballAt(2, 7), 'ball');
  expect(await expectSame()).toHaveLength(6);
  now.mockRestore();
});

test('a key that goes on after a change was taken back begins anew: what was taken back can no longer be made again', async () => {
  const { expectSame, ballAt, keep } = await openLesson();
  keep(ballAt(1, 1), 'ball');
  keep(ballAt(2, 1), null);
  undo();
  keep(ballAt(1, 2), 'ball');
  const done = await expectSame();
  expect([done.length, app.get().history.undone.length]).toEqual([2, 0]);
});
