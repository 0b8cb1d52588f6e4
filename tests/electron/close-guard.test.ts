import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import type { EditWrite } from '../../core/model/edit.ts';
import { CloseGuard } from '../../electron/close-guard.ts';
import type { CloseAnswer } from '../../electron/close-guard.ts';
import { WriteRows } from '../../electron/ipc/unwritten.ts';

const FULL = new AppError('disk-full', 'The disk is full.');
const change = (x: number): EditWrite => ({
  does: 'make',
  edit: { kind: 'view', swingId: 'swing', clipId: String(x), before: 'face-on', after: 'down-the-line' },
});

/** A window with rows, a disk that may be full, and a coach who answers as told. */
function newWindow(answers: CloseAnswer[] = []) {
  const written: EditWrite[] = [];
  const told: string[] = [];
  const asked: unknown[] = [];
  let full = false;
  let folderTakes = true;
  let unfinished: readonly string[] = [];
  let goesBack = true;
  let beforeClose: (() => void) | null = null;
  const rows = new WriteRows({
    edit: (write) => {
      if (full) throw FULL;
      written.push(write);
    },
    pattern: () => undefined,
    settings: async () => undefined,
  });
  const guard = new CloseGuard({
    rows,
    windUp: async () => {
      told.push('wind up');
      beforeClose?.();
      return unfinished;
    },
    askUnfinished: async (names) => {
      told.push(`ask of ${names.join()}`);
      return goesBack ? 'stay' : 'close';
    },
    rescue: async () => void told.push(`rescue ${String(rows.count)}`),
    endRescue: async () => void told.push('rescued'),
    ask: (trouble) => {
      asked.push(trouble);
      const answer = answers.shift();
      if (answer === 'again') full = false;
      // Without an answer the dialog stays open.
      return answer === undefined ? new Promise(() => undefined) : Promise.resolve(answer);
    },
    keepElsewhere: async () => {
      told.push(`keep ${String(rows.count)}`);
      return folderTakes;
    },
    stay: () => told.push('stay'),
    close: () => told.push('close'),
  });
  return {
    ...{ rows, guard, written, told, asked },
    fill: () => (full = true),
    refuseFolder: () => (folderTakes = false),
    beginForm: () => (unfinished = ['Add a lesson']),
    giveFormUp: () => (goesBack = false),
    onWindUp: (work: () => void) => (beforeClose = work),
    put: (x: number) => void rows.edits.put(change(x)).catch(() => undefined),
  };
}

describe('a window that is to close', () => {
  it('closes once all is written, what the page hands over last included, and asks nothing', async () => {
    const { guard, put, onWindUp, written, told, asked } = newWindow();
    for (let x = 0; x < 5; x += 1) put(x);
    onWindUp(() => put(5));
    await guard.leave();
    expect([written, told, asked]).toEqual([[0, 1, 2, 3, 4, 5].map(change), ['wind up', 'close'], []]);
    expect(guard.mayClose).toBe(true);
  });

  it('asks before it takes along what the coach is in the middle of, and writes the rest all the same', async () => {
    const { guard, put, beginForm, giveFormUp, written, told } = newWindow();
    put(1);
    beginForm();
    await guard.leave();
    expect([told, guard.mayClose]).toEqual([['wind up', 'ask of Add a lesson', 'stay'], false]);
    giveFormUp();
    await guard.leave();
    expect([told.slice(3), written]).toEqual([['wind up', 'ask of Add a lesson', 'close'], [change(1)]]);
  });

  it('closes once, however often it is asked', async () => {
    const { guard, put, told } = newWindow();
    put(1);
    await Promise.all([guard.leave(), guard.leave(), guard.leave()]);
    expect(told).toEqual(['wind up', 'close']);
  });

  it('asks where it cannot be written, and stays open with everything when told to', async () => {
    const { guard, put, fill, rows, told, asked } = newWindow(['stay', 'again']);
    fill();
    put(1);
    put(2);
    await guard.leave();
    expect([told, asked, rows.count, guard.mayClose]).toEqual([
      ['wind up', 'rescue 2', 'rescued', 'stay'],
      [FULL],
      2,
      false,
    ]);
    await guard.leave();
    expect([told.slice(4), rows.count]).toEqual([['wind up', 'rescue 2', 'rescued', 'close'], 0]);
  });

  it('tries again as often as it is told to', async () => {
    const { guard, put, fill, written, told, asked } = newWindow(['again']);
    fill();
    put(1);
    await guard.leave();
    expect([written, told, asked.length]).toEqual([[change(1)], ['wind up', 'rescue 1', 'rescued', 'close'], 1]);
  });

  it('closes once the changes are kept elsewhere, and asks again where they could not be', async () => {
    const { guard, put, fill, told, rows } = newWindow(['elsewhere']);
    fill();
    put(1);
    put(2);
    await guard.leave();
    expect([told, rows.count]).toEqual([['wind up', 'rescue 2', 'keep 2', 'rescued', 'close'], 0]);

    const other = newWindow(['elsewhere', 'stay']);
    other.fill();
    other.refuseFolder();
    other.put(1);
    await other.guard.leave();
    expect([other.told, other.asked.length, other.rows.count]).toEqual([
      ['wind up', 'rescue 1', 'keep 1', 'rescued', 'stay'],
      2,
      1,
    ]);
  });

  it('gives changes up only where it is told to, by the coach or by a second end from outside', async () => {
    const { guard, put, fill, told } = newWindow(['drop']);
    fill();
    put(1);
    await guard.leave();
    expect(told).toEqual(['wind up', 'rescue 1', 'rescued', 'close']);

    const silent = newWindow([]);
    silent.fill();
    silent.put(1);
    silent.guard.insist();
    const left = silent.guard.leave();
    await expect.poll(() => silent.guard.isAsking).toBe(true);
    expect(silent.told).toEqual(['wind up', 'rescue 1']);
    silent.guard.insist();
    await left;
    expect(silent.told).toEqual(['wind up', 'rescue 1', 'rescued', 'close']);
  });
});
