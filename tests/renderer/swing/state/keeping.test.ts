import { beforeEach, describe, expect, test } from 'vitest';
import type { BookClip } from '../../../../core/model/book.ts';
import type { KeptEdits } from '../../../../core/model/edit.ts';
import { AppError } from '../../../../core/model/errors.ts';
import { app, newBench, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { cancelJob } from '../../../../renderer/shell/state/jobs.ts';
import { keepPart } from '../../../../renderer/swing/state/keeping.ts';
import { controlProgram, turn } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

const NOTHING: KeptEdits = { done: [], undone: [] };
const coming = (id: string): BookClip => ({ ...clipOf(id), stored: 'linked', kept: { first: 5, of: 9 }, coming: true });

const FACTS = {
  ...{ version: '1', bookFolder: '', electron: '', place: 'en-GB', ffmpeg: null, empty: false, strays: [] },
};

let program: ReturnType<typeof controlProgram>;
beforeEach(() => {
  program = controlProgram();
  setApp({ swing: swingOf('a', [coming('x')]), then: null, indexes: { x: indexOf(4) }, bench: newBench('x', 2) });
  setApp({ messages: [], jobs: [] });
});

async function answerReading(clips: readonly BookClip[], frames: number): Promise<void> {
  await turn();
  await program.next('clip/index').answer<'clip/index'>({ ...indexOf(frames), sound: false });
  await program.next('swing/open').answer<'swing/open'>(swingOf('a', clips));
  await program.next('edit/list').answer<'edit/list'>(NOTHING);
}

describe('a part that is taken while it is on the bench', () => {
  test('is asked for once, and is shown as a file of its own without a picture made anew', async () => {
    const { frames } = app.get().indexes['x'] ?? indexOf(0);
    const asked = [keepPart(coming('x')), keepPart(coming('x'))];
    const order = program.next('clip/keep');
    expect(order.input).toMatchObject({ id: 'x', first: 5 });
    expect(program.asked).toEqual([]);
    expect(app.get().jobs).toHaveLength(1);
    await order.answer<'clip/keep'>({ id: 'x', shift: 0, whole: false });
    await answerReading([clipOf('x')], 4);
    expect(await Promise.all(asked)).toEqual([0, 1].map(() => ({ id: 'x', shift: 0, whole: false })));
    const { indexes, bench, swing } = app.get();
    expect(indexes['x']?.frames).toBe(frames);
    expect(indexes['x']?.sound).toBe(false);
    expect(swing?.clips).toEqual([clipOf('x')]);
    expect([bench?.clipId, bench?.index, bench?.picture]).toEqual(['x', 2, newBench('x', 2).picture]);
  });

  test('and begins earlier leaves the bench on its picture, under its new name', async () => {
    const asked = keepPart(coming('x'));
    await program.next('clip/keep').answer<'clip/keep'>({ id: 'y', shift: 5, whole: true });
    await answerReading([clipOf('y', 9)], 9);
    await asked;
    const { indexes, bench, messages } = app.get();
    expect([bench?.clipId, bench?.index, bench?.picture]).toEqual(['y', 7, 'coming']);
    expect(indexes['y']?.frames).toHaveLength(9);
    expect(messages.map(({ text }) => text)).toEqual([expect.stringMatching(/could not be cut, so the book took all/)]);
  });

  test('is in the bin once the coach has cancelled, and offered back', async () => {
    const asked = keepPart(coming('x'));
    const order = program.next('clip/keep');
    cancelJob(app.get().jobs[0]?.jobId ?? '');
    await order.refuse(new AppError('cancelled', 'Cancelled.'));
    const binned = program.next('bin/move');
    expect(binned.input).toEqual({ kind: 'clip', id: 'x' });
    await binned.answer<'bin/move'>({ id: 'bin', kind: 'clip', name: 'a.mp4', removedAt: '' });
    await program.next('student/list').answer<'student/list'>([]);
    await program.next('swing/open').answer<'swing/open'>(swingOf('a'));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    await program.next('program/facts').answer<'program/facts'>(FACTS);
    expect(await asked).toBeNull();
    expect(app.get().messages).toMatchObject([{ kind: 'done', nextStep: { label: 'Put it back' } }]);
  });

  test('stays where it is when the program stopped it, and when it could not be taken, which is said', async () => {
    for (const [code, said] of [
      ['cancelled', []],
      ['disk-full', ['Make room.']],
    ] as const) {
      const asked = keepPart(coming('x'));
      await program.next('clip/keep').refuse(new AppError(code, 'Make room.'));
      expect(await asked).toBeNull();
      expect(program.asked).toEqual([]);
      expect(app.get().messages.map(({ text }) => text)).toEqual(said);
      expect(app.get().jobs).toEqual([]);
    }
  });
});
