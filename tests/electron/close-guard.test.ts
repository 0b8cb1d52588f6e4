import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import type { EditWrite } from '../../core/model/edit.ts';
import { CloseGuard } from '../../electron/close-guard.ts';
import type { CloseAnswer, RunningAnswer } from '../../electron/close-guard.ts';
import { RunningJobs } from '../../electron/ipc/running-jobs.ts';
import { WriteRows } from '../../electron/ipc/unwritten.ts';

const FULL = new AppError('disk-full', 'The disk is full.');
const GONE = new AppError('no-such-record', 'This clip is not in the book.');
const change = (x: number): EditWrite => ({
  does: 'make',
  edit: { kind: 'view', swingId: 'swing', clipId: String(x), before: 'face-on', after: 'down-the-line' },
});

/** A window with rows, a disk that may be full, and a coach who answers as told. */
function newWindow(answers: CloseAnswer[] = []) {
  const written: EditWrite[] = [];
  const told: string[] = [];
  const asked: unknown[] = [];
  const jobs = new RunningJobs(() => undefined);
  const aboutRunning: RunningAnswer[] = [];
  let full = false;
  let isGone = false;
  let folderTakes = true;
  let unfinished: readonly string[] = [];
  let goesBack = true;
  let beforeClose: (() => void) | null = null;
  const rows = new WriteRows({
    edit: (write) => {
      if (isGone) throw GONE;
      if (full) throw FULL;
      written.push(write);
    },
    goals: () => undefined,
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
    jobs,
    askRunning: (names) => {
      told.push(`ask of running ${names.join()}`);
      const answer = aboutRunning.shift();
      return answer === undefined ? new Promise(() => undefined) : Promise.resolve(answer);
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
    tellRefused: async (refusal) => void told.push(`refused ${String(refusal === GONE)}`),
    keepElsewhere: async () => {
      told.push(`keep ${String(rows.count)}`);
      return folderTakes;
    },
    stay: () => told.push('stay'),
    close: () => told.push('close'),
  });
  return {
    ...{ rows, guard, written, told, asked, jobs },
    answerRunning: (...given: RunningAnswer[]) => aboutRunning.push(...given),
    /** A job that ends when it is told to, and takes a moment to stop. */
    begin(name: string) {
      let finish = (): void => undefined;
      const work = async ({ signal }: { readonly signal: AbortSignal }): Promise<void> => {
        await new Promise<void>((resolve) => {
          finish = resolve;
          signal.addEventListener('abort', () => setTimeout(resolve, 5));
        });
        told.push(`${name} ${signal.aborted ? 'stopped' : 'done'}`);
      };
      jobs.run(name, name, work).catch(() => undefined);
      return { finish: () => finish() };
    },
    fill: () => (full = true),
    removeClip: () => (isGone = true),
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

  it('tells what the book refuses for good of what had waited', async () => {
    const { rows, guard, put, fill, removeClip, told } = newWindow();
    fill();
    put(1);
    await rows.retryAll();
    removeClip();
    await guard.leave();
    expect([told, rows.count]).toEqual([['wind up', 'refused true', 'close'], 0]);
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

describe('a window that is to close while a clip comes in', () => {
  const ASKED = ['wind up', 'ask of running Adding a clip'];

  it('asks, waits for it where that is the answer, and closes only then', async () => {
    const { guard, begin, answerRunning, put, told, written } = newWindow();
    const { finish } = begin('Adding a clip');
    answerRunning('wait');
    put(1);
    const left = guard.leave();
    await expect.poll(() => told).toEqual(ASKED);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(guard.mayClose).toBe(false);
    finish();
    await left;
    expect([told.slice(2), written]).toEqual([['Adding a clip done', 'close'], [change(1)]]);
  });

  it('closes only once it has stopped, where it is to be stopped', async () => {
    const { guard, begin, answerRunning, told, jobs } = newWindow();
    begin('Adding a clip');
    answerRunning('stop');
    await guard.leave();
    expect([told, jobs.count]).toEqual([[...ASKED, 'Adding a clip stopped', 'close'], 0]);
  });

  it('stays open, and the clip goes on coming in', async () => {
    const { guard, begin, answerRunning, told, jobs } = newWindow();
    begin('Adding a clip');
    answerRunning('stay');
    await guard.leave();
    expect([told, jobs.count, guard.mayClose]).toEqual([[...ASKED, 'stay'], 1, false]);
  });

  it('asks anew when it is closed again meanwhile; a second end from outside stops it', async () => {
    const { guard, begin, answerRunning, told } = newWindow();
    begin('Adding a clip');
    answerRunning('wait', 'wait');
    const left = guard.leave();
    await expect.poll(() => told).toEqual(ASKED);
    await new Promise((resolve) => setTimeout(resolve));
    void guard.leave();
    await expect.poll(() => told).toEqual([...ASKED, ASKED[1]]);
    guard.insist();
    await left;
    expect(told.slice(3)).toEqual(['Adding a clip stopped', 'close']);
  });

  it('asks of nothing that ended while it asked', async () => {
    const { guard, begin, told } = newWindow();
    const { finish } = begin('Adding a clip');
    const left = guard.leave();
    await expect.poll(() => told).toEqual(ASKED);
    finish();
    await left;
    expect(told.slice(2)).toEqual(['Adding a clip done', 'close']);
  });
});
