import { setImmediate as nextTurn } from 'node:timers/promises';
import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { stopIfCancelled, type JobContext } from '../../core/jobs/job-context.ts';
import type { JobReport } from './contract.ts';

/** Shortest time between two reports of one job, ms: a person reads no faster, and the window has frames to draw. */
const REPORT_GAP = 100;

/** Owner of every job that runs: who reports, who can be cancelled, and what has to end before the program may. */
export class RunningJobs {
  readonly #running = new Map<string, { name: string | null; stop: AbortController; ended: Promise<unknown> }>();
  readonly #send: (report: JobReport) => void;

  constructor(send: (report: JobReport) => void) {
    this.#send = send;
  }

  get count(): number {
    return this.#running.size;
  }

  /** What runs that would be missed if it was stopped, in words, in the order it was begun. */
  get names(): readonly string[] {
    return [...this.#running.values()].flatMap(({ name }) => name ?? []);
  }

  /**
   * Runs `work` under `jobId` until it ends; `name` says what it is, e.g. "Adding a clip"; null: it only looks, and nobody is
   * asked before it is stopped. Once cancelled it answers with AppError `cancelled`, however the work put it. An id that is running already is refused.
   */
  async run<T>(jobId: string, name: string | null, work: (run: JobContext) => Promise<T>): Promise<T> {
    if (this.#running.has(jobId))
      throw new AppError('bad-request', say`This is running already. Wait for it to end, or cancel it first.`);
    const stop = new AbortController();
    const ended = this.#watch(jobId, stop.signal, work);
    this.#running.set(jobId, { name, stop, ended });
    try {
      return await ended;
    } catch (cause) {
      // A job that failed because it was told to stop was stopped, whatever broke first.
      stopIfCancelled(stop.signal);
      throw cause;
    } finally {
      this.#running.delete(jobId);
    }
  }

  /** Tells a job to stop; nothing happens when it has ended meanwhile. */
  cancel(jobId: string): void {
    this.#running.get(jobId)?.stop.abort();
  }

  /** Tells all to stop and waits until each has ended. */
  async cancelAll(): Promise<void> {
    for (const { stop } of this.#running.values()) stop.abort();
    await this.allEnded();
  }

  /** Settles when all that run now have ended, however they end, and have been answered. */
  async allEnded(): Promise<void> {
    await Promise.allSettled([...this.#running.values()].map(({ ended }) => ended));
    await nextTurn();
  }

  async #watch<T>(jobId: string, signal: AbortSignal, work: (run: JobContext) => Promise<T>): Promise<T> {
    let last: JobReport | null = null;
    let sentAt = -Infinity;
    return work({
      signal,
      report: (label, done, total) => {
        const sameLabel = last?.label === label;
        const report = { jobId, label, done: sameLabel ? Math.max(done, last?.done ?? 0) : done, total };
        const now = performance.now();
        last = report;
        if (sameLabel && done !== total && now - sentAt < REPORT_GAP) return;
        sentAt = now;
        this.#send(report);
      },
    });
  }
}
