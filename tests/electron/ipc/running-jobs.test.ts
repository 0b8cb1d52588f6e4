import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import type { JobReport } from '../../../electron/ipc/contract.ts';
import { RunningJobs } from '../../../electron/ipc/running-jobs.ts';

const silent = (): RunningJobs => new RunningJobs(() => undefined);
const untilAborted = (signal: AbortSignal): Promise<void> =>
  new Promise((resolve) => signal.addEventListener('abort', () => resolve(), { once: true }));

describe('a running job', () => {
  it('gives back what its work made, and is forgotten', async () => {
    const jobs = silent();
    expect(await jobs.run('a', async () => 7)).toBe(7);
    expect(jobs.count).toBe(0);
    expect(await jobs.run('a', async () => 8)).toBe(8);
  });

  it('gives on the error of its work, and is forgotten', async () => {
    const jobs = silent();
    const full = new AppError('disk-full', 'The disk is full.');
    await expect(jobs.run('a', () => Promise.reject(full))).rejects.toBe(full);
    expect(jobs.count).toBe(0);
  });

  it('answers `cancelled` once told to stop, whatever broke first in its work', async () => {
    const jobs = silent();
    const ended = jobs.run('a', async ({ signal }) => {
      await untilAborted(signal);
      throw new Error('the pipe broke');
    });
    jobs.cancel('a');
    await expect(ended).rejects.toMatchObject({ code: 'cancelled' });
    expect(jobs.count).toBe(0);
  });

  it('keeps its result when the word to stop came too late', async () => {
    const jobs = silent();
    const ended = jobs.run('a', async ({ signal }) => {
      await untilAborted(signal);
      return 'done already';
    });
    jobs.cancel('a');
    expect(await ended).toBe('done already');
  });

  it('is not started a second time under the same id', async () => {
    const jobs = silent();
    const first = jobs.run('a', ({ signal }) => untilAborted(signal));
    await expect(jobs.run('a', async () => 1)).rejects.toMatchObject({ code: 'bad-request' });
    jobs.cancel('a');
    await first;
  });

  it('lets an id be cancelled whose job has ended, and stops no other for it', async () => {
    const jobs = silent();
    expect(await jobs.run('gone', async () => 1)).toBe(1);
    let finish = (): void => undefined;
    const other = jobs.run('other', async ({ signal }) => {
      await new Promise<void>((resolve) => (finish = resolve));
      return signal.aborted;
    });
    jobs.cancel('gone');
    expect(jobs.count).toBe(1);
    finish();
    expect(await other).toBe(false);
    expect(jobs.count).toBe(0);
  });

  it('stops with all others, and the wait ends when the last has', async () => {
    const jobs = silent();
    const ended: string[] = [];
    const start = (id: string, wait: number): Promise<void> =>
      jobs.run(id, async ({ signal }) => {
        await untilAborted(signal);
        await new Promise((resolve) => setTimeout(resolve, wait));
        ended.push(id);
      });
    const both = [start('slow', 30), start('quick', 0)];
    await jobs.cancelAll();
    expect(ended).toEqual(['quick', 'slow']);
    await Promise.all(both);
    expect(jobs.count).toBe(0);
  });
});

describe('reports of a job', () => {
  it('never fall within a label, and start anew with the next', async () => {
    const sent: JobReport[] = [];
    await new RunningJobs((report) => sent.push(report)).run('a', async ({ report }) => {
      report('Reading', 1, 10);
      report('Reading', 10, 10);
      report('Reading', 4, 10);
      report('Copying', 0, 5);
      report('Copying', 5, 5);
    });
    expect(sent).toEqual([
      { jobId: 'a', label: 'Reading', done: 1, total: 10 },
      { jobId: 'a', label: 'Reading', done: 10, total: 10 },
      { jobId: 'a', label: 'Copying', done: 0, total: 5 },
      { jobId: 'a', label: 'Copying', done: 5, total: 5 },
    ]);
  });

  it('are thinned, but the first and the last of a label always come through', async () => {
    const sent: JobReport[] = [];
    await new RunningJobs((report) => sent.push(report)).run('a', async ({ report }) => {
      for (let done = 0; done <= 100_000; done++) report('Reading', done, 100_000);
    });
    expect(sent.length).toBeLessThan(100);
    expect(sent.at(0)?.done).toBe(0);
    expect(sent.at(-1)?.done).toBe(100_000);
  });
});
