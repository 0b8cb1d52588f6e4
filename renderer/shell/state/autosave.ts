import { say } from '../../../core/model/say.ts';
import { AppError } from '../../../core/model/errors.ts';
import type { Written } from '../../../electron/ipc/contract.ts';
import { asError } from '../../api.ts';

/** Where saving stands, for the small word in the corner. */
export type SaveState = 'saved' | 'saving' | 'not saved';

/** Sends a change to the program; settles when it is written, or with what keeps it from that. */
export type Send = () => Promise<Written | null>;

export interface AutosaveOptions {
  readonly report: (state: SaveState) => void;
  /** It cannot be written now. The program keeps it, and all after it. */
  readonly failed: (error: unknown) => void;
  /** It is not taken, now or ever. */
  readonly refused: (error: unknown) => void;
  /** Has the program try again what it keeps. */
  readonly retry: Send;
  /** Settles when the page has done what hands have asked of it so far. */
  readonly inputHandled: () => Promise<void>;
}

export interface Autosave {
  put(send: Send): void;
  /** Tries again what could not be written. */
  retry(): void;
  /** Counts in what the program keeps from a page before this one. */
  takeOver(waiting: number): void;
  /** What the program kept is not to be written any more: another whole took its place. */
  settledOtherwise(): void;
  /** Whether anything is under way or could not be written. */
  isWaiting(): boolean;
  /** Settles when nothing is under way any more (also when it could not be written). */
  settled(): Promise<void>;
}

/** What the book will not take, now or later: the view of another clip, say, or a mark on a clip that was removed. */
function isRefused(error: unknown): boolean {
  return error instanceof AppError && (error.code === 'bad-request' || error.code === 'no-such-record');
}

/**
 * Settles when all that was put is written. What could not be is tried once more; where it still cannot be, that has been
 * told, and `cancelled` is thrown.
 */
export async function settleAutosave(autosave: Autosave): Promise<void> {
  await autosave.settled();
  if (!autosave.isWaiting()) return;
  autosave.retry();
  await autosave.settled();
  if (autosave.isWaiting()) throw new AppError('cancelled', say`The latest changes are not saved yet.`);
}

/**
 * Sends every change off as it comes: the program writes them one after another, in that order, and keeps what cannot be
 * written. Nothing waits in the page, so nothing goes with it. All is saved only once every key and press that has come is
 * handled too.
 */
export function createAutosave(options: AutosaveOptions): Autosave {
  const { report, failed, refused, inputHandled } = options;
  const underWay = new Set<Promise<void>>();
  let kept = 0;
  /** Grows with all that changes where saving stands. */
  let turn = 0;

  function tell(): void {
    turn += 1;
    const told = turn;
    if (underWay.size > 0) return report('saving');
    if (kept > 0) return report('not saved');
    void inputHandled().then(() => {
      if (turn === told) report('saved');
    });
  }

  function follow(send: Send, onError: (error: unknown) => void): void {
    const sent = send().then(
      // In order: what was kept before is written with it, or refused.
      (written) => {
        kept = 0;
        const earlier = written?.earlierRefused ?? null;
        if (earlier !== null) refused(asError(earlier));
      },
      onError,
    );
    const done = sent.then(() => {
      underWay.delete(done);
      tell();
    });
    underWay.add(done);
    tell();
  }

  function keep(error: unknown): void {
    kept += 1;
    failed(error);
  }

  return {
    put: (send) => follow(send, (error) => (isRefused(error) ? refused(error) : keep(error))),
    retry() {
      if (kept === 0) return;
      follow(options.retry, (error) => {
        if (!isRefused(error)) return failed(error);
        kept = 0;
        refused(error);
      });
    },
    takeOver(waiting) {
      kept += waiting;
      if (waiting > 0) tell();
    },
    settledOtherwise() {
      kept = 0;
      tell();
    },
    isWaiting: () => kept > 0 || underWay.size > 0,
    async settled() {
      while (underWay.size > 0) await Promise.all(underWay);
    },
  };
}
