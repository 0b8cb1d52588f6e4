import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';

/** What a job is given by whoever started it: how to say how far it is, and how it is told to stop. */
export interface JobContext {
  /** Aborted when the coach cancels or the program closes. A job then undoes what is half-made and throws. */
  readonly signal: AbortSignal;
  /** `label` says in plain words what is being done; `total` is null while unknown; `done` never falls within a label. */
  readonly report: (label: string, done: number, total: number | null) => void;
}

/** A run that nobody watches or cancels. */
export const UNWATCHED: JobContext = { signal: new AbortController().signal, report: () => undefined };

/** Throws AppError `cancelled` once the signal is aborted. */
export function stopIfCancelled(signal: AbortSignal): void {
  if (signal.aborted)
    throw new AppError('cancelled', say`Stopped. Nothing half-made was kept.`, { cause: signal.reason });
}
