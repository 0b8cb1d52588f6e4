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
    expect(await jobs.run('a', 'Adding a clip', async () => 7)).toBe(7);
    expect(jobs.count).toBe(0);
    expect(await jobs.run('a', 'Adding a clip', async () => 8)).toBe(8);
  });

  it('gives on the error of its work, and is forgotten', async () => {
    const jobs = silent();
    const full = new AppError('disk-full', 'The disk is full.');
    await expect(jobs.run('a', 'Adding a clip', () => Promise.reject(full))).rejects.toBe(full);
    expect(jobs.count).toBe(0);
  });

  it('answers `cancelled` once told to stop, whatever broke first in its work', async () => {
    const jobs = silent();
    const ended = jobs.run('a', 'Adding a clip', async ({ signal }) => {
      await untilAborted(signal);
      throw new Error('the pipe broke');
    });
    jobs.cancel('a');
    await expect(ended).rejects.toMatchObject({ code: 'cancelled' });
    expect(jobs.count).toBe(0);
  });

  it('keeps its result when the word to stop came too late', async () => {
    const jobs = silent();
    const ended = jobs.run('a', 'Adding a clip', async ({ signal }) => {
      await untilAborted(signal);
      return 'done already';
    });
    jobs.cancel('a');
    expect(await ended).toBe('done already');
  });

  it('is named while it runs, in the order of beginning', async () => {
    const jobs = silent();
    const both = ['Adding a clip', 'Saving stills'].map((name) =>
      jobs.run(name, name, ({ signal }) => untilAborted(signal)),
    );
    expect(jobs.names).toEqual(['Adding a clip', 'Saving stills']);
    jobs.cancel('Adding a clip');
    await both[0];
    expect(jobs.names).toEqual(['Saving stills']);
    await jobs.cancelAll();
    expect(jobs.names).toEqual([]);
  });

  it('is waited for until it has ended by itself, well or not, and is not stopped for that', async () => {
    const jobs = silent();
    let finish = (): void => undefined;
    const ended = jobs.run('a', 'Adding a clip', async ({ signal }) => {
      await new Promise<void>((resolve) => (finish = resolve));
      throw new Error(signal.aborted ? 'stopped' : 'not stopped');
    });
    const all = jobs.allEnded().then(() => jobs.count);
    finish();
    await expect(ended).rejects.toThrow('not stopped');
    expect(await all).toBe(0);
  });

  it('is not started a second time under the same id', async () => {
    const jobs = silent();
    const first = jobs.run('a', 'Adding a clip', ({ signal }) => untilAborted(signal));
    await expect(jobs.run('a', 'Adding a clip', async () => 1)).rejects.toMatchObject({ code: 'bad-request' });
    jobs.cancel('a');
    await first;
  });

  it('lets an id be cancelled whose job has ended, and stops no other for it', async () => {
    const jobs = silent();
    expect(await jobs.run('gone', 'Adding a clip', async () => 1)).toBe(1);
    let finish = (): void => undefined;
    const other = jobs.run('other', 'Adding a clip', async ({ signal }) => {
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
      jobs.run(id, 'Adding a clip', async ({ signal }) => {
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
    await new RunningJobs((report) => sent.push(report)).run('a', 'Adding a clip', async ({ report }) => {
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
    await new RunningJobs((report) => sent.push(report)).run('a', 'Adding a clip', async ({ report }) => {
      for (let done = 0; done <= 100_000; done++) report('Reading', done, 100_000);
    });
    expect(sent.length).toBeLessThan(100);
    expect(sent.at(0)?.done).toBe(0);
    expect(sent.at(-1)?.done).toBe(100_000);
  });
});
