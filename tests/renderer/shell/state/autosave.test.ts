import { describe, expect, test } from 'vitest';
import { AppError } from '../../../../core/model/errors.ts';
import { createAutosave, settleAutosave } from '../../../../renderer/shell/state/autosave.ts';
import type { Written } from '../../../../electron/ipc/contract.ts';
import type { SaveState } from '../../../../renderer/shell/state/autosave.ts';

const FULL = new AppError('disk-full', 'The disk is full.');
const REFUSED = new AppError('bad-request', 'This cannot be.');

/** A program that answers when it is told to, and a page whose input is handled when it is told to. */
function newPage() {
  const states: SaveState[] = [];
  const failures: unknown[] = [];
  const refusals: unknown[] = [];
  const sent: string[] = [];
  const answers: { readonly done: (written?: Written) => void; readonly failed: (error: unknown) => void }[] = [];
  let handled: () => void = () => undefined;
  let holdsInput = false;
  const answer = (): Promise<Written | null> =>
    new Promise((resolve, reject) => {
      answers.push({ done: (written) => resolve(written ?? null), failed: reject });
    });
  const autosave = createAutosave({
    report: (state) => states.push(state),
    failed: (error) => failures.push(error),
    refused: (error) => refusals.push(error),
    retry: () => {
      sent.push('retry');
      return answer();
    },
    inputHandled: () => (holdsInput ? new Promise((resolve) => (handled = resolve)) : Promise.resolve()),
  });
  return {
    ...{ autosave, states, failures, refusals, sent, answers },
    put: (name: string) =>
      autosave.put(() => {
        sent.push(name);
        return answer();
      }),
    holdInput: () => (holdsInput = true),
    handleInput: () => handled(),
  };
}

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

describe('what is changed', () => {
  test('is with the program at once: nothing waits in the page for an answer', () => {
    const { put, sent } = newPage();
    for (const name of ['a', 'b', 'c']) put(name);
    expect(sent).toEqual(['a', 'b', 'c']);
  });

  test('is saving until the last is written', async () => {
    const { put, states, answers, autosave } = newPage();
    put('a');
    put('b');
    answers[0]?.done();
    await turn();
    expect([states.at(-1), autosave.isWaiting()]).toEqual(['saving', true]);
    answers[1]?.done();
    await turn();
    expect([states.at(-1), autosave.isWaiting()]).toEqual(['saved', false]);
  });

  test('is not all saved while a key that was pressed is not handled yet', async () => {
    const { put, states, answers, holdInput, handleInput } = newPage();
    holdInput();
    put('a');
    answers[0]?.done();
    await turn();
    expect(states.at(-1)).toBe('saving');
    handleInput();
    await turn();
    expect(states.at(-1)).toBe('saved');
  });

  test('is not saved where it cannot be written, until it is: by itself with the next, or tried again', async () => {
    const { put, states, answers, failures, sent, autosave } = newPage();
    put('a');
    answers[0]?.failed(FULL);
    await turn();
    expect([states.at(-1), failures, autosave.isWaiting()]).toEqual(['not saved', [FULL], true]);
    put('b');
    answers[1]?.done();
    await turn();
    expect(states.at(-1)).toBe('saved');
    autosave.retry();
    put('c');
    answers[2]?.failed(FULL);
    await turn();
    autosave.retry();
    answers[3]?.done();
    await turn();
    expect([states.at(-1), sent]).toEqual(['saved', ['a', 'b', 'c', 'retry']]);
  });

  test('that is refused is told, and does not count as not saved', async () => {
    const { put, states, answers, refusals } = newPage();
    put('a');
    answers[0]?.failed(REFUSED);
    await turn();
    expect([states.at(-1), refusals]).toEqual(['saved', [REFUSED]]);
  });

  test('that waited, and is refused while a later one is written, is told too', async () => {
    const { put, states, answers, refusals } = newPage();
    put('a');
    answers[0]?.failed(FULL);
    await turn();
    put('b');
    const earlierRefused = { code: REFUSED.code, message: REFUSED.message, detail: {} };
    answers[1]?.done({ earlierRefused });
    await turn();
    expect([states.at(-1), refusals]).toEqual(['saved', [REFUSED]]);
  });

  test('that a page before this one left behind counts as not saved', async () => {
    const { states, answers, autosave } = newPage();
    autosave.takeOver(3);
    expect([states.at(-1), autosave.isWaiting()]).toEqual(['not saved', true]);
    autosave.retry();
    answers[0]?.done();
    await turn();
    expect(states.at(-1)).toBe('saved');
  });
});

describe('whoever needs all to be written', () => {
  test('waits for it, has it tried once more, and goes no further where it still cannot be', async () => {
    const { put, answers, autosave } = newPage();
    put('a');
    const settled = settleAutosave(autosave).then(
      () => 'settled',
      (error: unknown) => (error instanceof AppError ? error.code : 'other'),
    );
    answers[0]?.failed(FULL);
    await turn();
    answers[1]?.failed(FULL);
    expect(await settled).toBe('cancelled');
    const again = settleAutosave(autosave).then(() => 'settled');
    await turn();
    answers[2]?.done();
    expect(await again).toBe('settled');
  });
});
