import { ask, onJobReport } from '../../api.ts';
import { app } from './app-state.ts';
import type { AppState } from './app-state.ts';
import { tellTrouble } from './messages.ts';

/** Runs a job under a new id, showing it until it ends however it ends. `aside`: nothing waits for it. */
export async function runJob<T>(label: string, start: (jobId: string) => Promise<T>, aside = false): Promise<T> {
  const jobId = crypto.randomUUID();
  app.update((state) => ({ ...state, jobs: [...state.jobs, { jobId, label, done: 0, total: null, aside }] }));
  try {
    return await start(jobId);
  } finally {
    app.update((state) => ({ ...state, jobs: state.jobs.filter((job) => job.jobId !== jobId) }));
  }
}

/** Whether a job runs beside which no other is begun. */
export function isBusy({ jobs }: AppState): boolean {
  return jobs.some(({ aside }) => aside !== true);
}

/** Jobs that the coach has cancelled; one that the program stopped is none of them. */
const cancelled = new Set<string>();

export function wasCancelled(jobId: string): boolean {
  return cancelled.has(jobId);
}

export function cancelJob(jobId: string): void {
  cancelled.add(jobId);
  ask('job/cancel', { jobId }).catch(tellTrouble);
}

/** Keeps the shown jobs up to date; returns how to stop. Reports of jobs that are over are dropped. */
export function followJobs(): () => void {
  return onJobReport((report) => {
    app.update((state) => ({
      ...state,
      jobs: state.jobs.map((job) => (job.jobId === report.jobId ? { ...job, ...report } : job)),
    }));
  });
}
