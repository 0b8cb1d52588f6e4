import { expect, test } from 'vitest';
import { createAutosave } from '../../../renderer/state/autosave.ts';
import type { SaveState } from '../../../renderer/state/autosave.ts';

function book() {
  const states: SaveState[] = [];
  const written: string[] = [];
  const failures: unknown[] = [];
  const autosave = createAutosave(
    (state) => states.push(state),
    (error) => failures.push(error),
  );
  let full = false;
  const put = (value: string) =>
    autosave.put(async () => {
      await Promise.resolve();
      if (full) throw new Error('disk full');
      written.push(value);
    });
  return { autosave, states, written, failures, put, setFull: (value: boolean) => (full = value) };
}

test('writes in the order of the changes, one after another', async () => {
  const { put, written, autosave, states } = book();
  put('a1');
  put('b1');
  put('c1');
  await autosave.settled();
  expect([written, states]).toEqual([
    ['a1', 'b1', 'c1'],
    ['saving', 'saved'],
  ]);
});

test('every change is written, however quickly they come: each can be taken back', async () => {
  const { put, written, autosave } = book();
  for (const value of ['a1', 'a2', 'a3', 'a4']) put(value);
  await autosave.settled();
  expect(written).toEqual(['a1', 'a2', 'a3', 'a4']);
});

test('a write that fails is kept, told, and made again on retry before what came later', async () => {
  const { put, written, autosave, states, failures, setFull } = book();
  setFull(true);
  put('a1');
  await autosave.settled();
  expect([written, states.at(-1), failures.length]).toEqual([[], 'not saved', 1]);
  setFull(false);
  autosave.retry();
  put('b1');
  await autosave.settled();
  expect([written, states.at(-1)]).toEqual([['a1', 'b1'], 'saved']);
});
