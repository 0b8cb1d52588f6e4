import type { WriteRows } from './ipc/unwritten.ts';

/** What a coach can say when changes cannot be written and the window is to close. */
export type CloseAnswer = 'again' | 'elsewhere' | 'drop' | 'stay';

/** What a coach can say when something is still being done. */
export type RunningAnswer = 'wait' | 'stop' | 'stay';

export interface CloseGuardOptions {
  readonly rows: WriteRows;
  /**
   * Has the page hand over what it still holds. Resolves in time, also where the page is gone or hangs, and names what the
   * coach is in the middle of.
   */
  readonly windUp: () => Promise<readonly string[]>;
  /** Asks whether to close although that would be lost. */
  readonly askUnfinished: (names: readonly string[]) => Promise<'close' | 'stay'>;
  /** What is being done for the coach: clips that come in, stills that are saved. */
  readonly jobs: {
    readonly names: readonly string[];
    /** Settles when all have ended by themselves. */
    allEnded(): Promise<void>;
    /** Stops all; settles when nothing half done is left, or in time. */
    cancelAll(): Promise<void>;
  };
  /** Asks what becomes of them; `over`: no answer is needed any more. */
  readonly askRunning: (names: readonly string[], over: AbortSignal) => Promise<RunningAnswer>;
  /** Keeps what is not written where an end by force does not reach it, until `endRescue`. Never rejects. */
  readonly rescue: () => Promise<void>;
  readonly endRescue: () => Promise<void>;
  /** Says what would be lost, and why it cannot be written. */
  readonly ask: (trouble: unknown) => Promise<CloseAnswer>;
  /** Says that a change which had waited was refused for good. */
  readonly tellRefused: (refusal: unknown) => Promise<void>;
  /** Keeps what is not written in another folder; false when the coach chose none, or it cannot be kept there either. */
  readonly keepElsewhere: () => Promise<boolean>;
  /** The window stays open; the page may be worked in again. */
  readonly stay: () => void;
  /** Nothing is left to be written. */
  readonly close: () => void;
}

/**
 * Keeps the window from closing before all is written. However the end comes (window, quit, log-out, Ctrl+C), it comes by
 * here; asked again while it is being closed, it goes on as it was.
 */
export class CloseGuard {
  readonly #options: CloseGuardOptions;
  #leaving: Promise<void> | null = null;
  #insist: (() => void) | null = null;
  /** Ends the wait for what is being done: the coach is asked anew. */
  #askAnew: (() => void) | null = null;
  #mayClose = false;

  constructor(options: CloseGuardOptions) {
    this.#options = options;
  }

  get mayClose(): boolean {
    return this.#mayClose;
  }

  get isLeaving(): boolean {
    return this.#leaving !== null;
  }

  /** Whether the coach is being asked, or waits as was answered; whoever has no window to answer in may then `insist`. */
  get isAsking(): boolean {
    return this.#insist !== null;
  }

  /**
   * Has all written and then closes, or asks what else to do. Resolves when it has closed, or stays open after all. Who asks
   * again while it waits for what is being done waits no longer.
   */
  leave(): Promise<void> {
    this.#askAnew?.();
    this.#leaving ??= this.#leave().finally(() => {
      this.#leaving = null;
    });
    return this.#leaving;
  }

  /** Answers the question in place of the coach: what is not written is given up. Nothing happens while none is asked. */
  insist(): void {
    this.#insist?.();
  }

  async #leave(): Promise<void> {
    const { rows, windUp, askUnfinished, rescue, endRescue, stay, close } = this.#options;
    const unfinished = await windUp();
    if (unfinished.length > 0 && (await this.#asking('close', () => askUnfinished(unfinished))) === 'stay')
      return stay();
    if (!(await this.#endJobs())) return stay();
    const trouble = await this.#retry();
    if (rows.count > 0) {
      await rescue();
      const isSettled = await this.#settle(trouble);
      await endRescue();
      if (!isSettled) return stay();
    }
    this.#mayClose = true;
    close();
  }

  /** Waits for what is being done, or stops it, as the coach says; false where the window is to stay open. */
  async #endJobs(): Promise<boolean> {
    const { jobs, askRunning } = this.#options;
    for (let names = jobs.names; names.length > 0; names = jobs.names) {
      const over = new AbortController();
      const ended = jobs.allEnded().then((): RunningAnswer => 'wait');
      let answer = await this.#asking('stop', () => Promise.race([askRunning(names, over.signal), ended]));
      over.abort();
      if (answer === 'wait') {
        const askedAnew = new Promise<RunningAnswer>((resolve) => (this.#askAnew = () => resolve('wait')));
        answer = await this.#asking('stop', () => Promise.race([ended, askedAnew]));
        this.#askAnew = null;
      }
      if (answer === 'stay') return false;
      if (answer === 'stop') {
        await jobs.cancelAll();
        return true;
      }
    }
    return true;
  }

  /** Asks until nothing waits to be written any more; false where the window is to stay open. */
  async #settle(first: unknown): Promise<boolean> {
    const { rows, ask, keepElsewhere } = this.#options;
    for (let trouble = first; rows.count > 0;) {
      const answer = await this.#asking('drop', () => ask(trouble));
      if (answer === 'stay') return false;
      if (answer === 'drop' || (answer === 'elsewhere' && (await keepElsewhere()))) rows.dropAll();
      // Also where the folder did not do: meanwhile there may be room again.
      else trouble = await this.#retry();
    }
    return true;
  }

  /** Tries to write all; answers with what keeps something from it, or null. */
  async #retry(): Promise<unknown> {
    const { rows, tellRefused } = this.#options;
    const trouble = await rows.retryAll();
    if (trouble !== null && rows.count === 0) await this.#asking(undefined, () => tellRefused(trouble));
    return trouble;
  }

  /** The coach's answer, or `insisted` where whoever ends the program from outside is quicker. */
  async #asking<Answer>(insisted: Answer, ask: () => Promise<Answer>): Promise<Answer> {
    const fromOutside = new Promise<Answer>((resolve) => {
      this.#insist = () => resolve(insisted);
    });
    try {
      return await Promise.race([ask(), fromOutside]);
    } finally {
      this.#insist = null;
    }
  }
}
