import { ask, onJobReport } from '../../api.ts';
import { app } from './app-state.ts';
import { tellTrouble } from './messages.ts';

/** Runs a job under a new id, showing it until it ends however it ends. */
export async function runJob<T>(label: string, start: (jobId: string) => Promise<T>): Promise<T> {
  const jobId = crypto.randomUUID();
  app.update((state) => ({ ...state, jobs: [...state.jobs, { jobId, label, done: 0, total: null }] }));
  try {
    return await start(jobId);
  } finally {
    app.update((state) => ({ ...state, jobs: state.jobs.filter((job) => job.jobId !== jobId) }));
  }
}

export function cancelJob(jobId: string): void {
  ask('job/cancel', { jobId }).catch(tellTrouble);
}

/** Keeps the shown jobs up to date; returns how to stop. Reports of jobs that are over are dropped. */
export function followJobs(): () => void {
  return onJobReport((report) => {
    app.update((state) => ({
      ...state,
      jobs: state.jobs.map((job) => (job.jobId === report.jobId ? report : job)),
    }));
  });
}
