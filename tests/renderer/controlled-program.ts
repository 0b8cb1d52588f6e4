import type { AppError } from '../../core/model/errors.ts';
import type { ClipSettled, JobReport, Outcome, RequestName, Requests, Written } from '../../electron/ipc/contract.ts';

/** One request of the window that the test has yet to answer. */
export interface Asked {
  readonly name: RequestName;
  readonly input: unknown;
  /** Answers it, and lets the window take the answer in. */
  answer<Name extends RequestName>(value: Requests[Name]['out']): Promise<void>;
  refuse(error: AppError): Promise<void>;
}

/** What a change is answered with once it is in the book. */
export const WRITTEN: Written = { earlierRefused: null };

export type Answerer = (name: RequestName, input: unknown) => Promise<Outcome<unknown>> | null;

/**
 * Stands where the program is for the window's state: each request waits in `asked` until the test answers it, unless
 * `answerer` does.
 */
export function controlProgram(answerer: Answerer = () => null) {
  const asked: Asked[] = [];
  const settling = new Set<(settled: ClipSettled) => void>();
  const reporting = new Set<(report: JobReport) => void>();
  const request = (name: RequestName, input: unknown): Promise<Outcome<unknown>> =>
    answerer(name, input) ??
    new Promise((resolve) => {
      asked.push({
        ...{ name, input },
        answer: (value) => {
          resolve({ ok: true, value });
          return turn();
        },
        refuse: ({ code, message, detail }) => {
          resolve({ ok: false, error: { code, message, detail } });
          return turn();
        },
      });
    });
  const onClipSettled = (listener: (settled: ClipSettled) => void): (() => void) => {
    settling.add(listener);
    return () => settling.delete(listener);
  };
  const onJobReport = (listener: (report: JobReport) => void): (() => void) => {
    reporting.add(listener);
    return () => reporting.delete(listener);
  };
  const nothing = (): void => undefined;
  const baybook = { request, onClipSettled, onJobReport, onFramesStopped: () => nothing, giveMemoryBack: nothing };
  if (typeof window === 'undefined') Object.assign(globalThis, { window: { baybook } });
  else Object.assign(window, { baybook });
  return {
    asked,
    /** The request of that name that has waited longest. */
    next(name: RequestName): Asked {
      const place = asked.findIndex((each) => each.name === name);
      const [found] = place < 0 ? [] : asked.splice(place, 1);
      if (found === undefined)
        throw new Error(`${name} was not asked; ${asked.map((each) => each.name).join(', ')} were`);
      return found;
    },
    reportJob(report: JobReport): void {
      for (const listener of reporting) listener(report);
    },
    settleClip(settled: ClipSettled): void {
      for (const listener of settling) listener(settled);
    },
  };
}

/** Lets all that follows on an answer happen. */
export function turn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve));
}
