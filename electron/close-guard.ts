import type { WriteRows } from './ipc/unwritten.ts';

/** What a coach can say when changes cannot be written and the window is to close. */
export type CloseAnswer = 'again' | 'elsewhere' | 'drop' | 'stay';

export interface CloseGuardOptions {
  readonly rows: WriteRows;
  /**
   * Has the page hand over what it still holds. Resolves in time, also where the page is gone or hangs, and names what the
   * coach is in the middle of.
   */
  readonly windUp: () => Promise<readonly string[]>;
  /** Asks whether to close although that would be lost. */
  readonly askUnfinished: (names: readonly string[]) => Promise<'close' | 'stay'>;
  /** Keeps what is not written where an end by force does not reach it, until `endRescue`. Never rejects. */
  readonly rescue: () => Promise<void>;
  readonly endRescue: () => Promise<void>;
  /** Says what would be lost, and why it cannot be written. */
  readonly ask: (trouble: unknown) => Promise<CloseAnswer>;
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

  /** Whether the coach is being asked; whoever has no window to answer in may then `insist`. */
  get isAsking(): boolean {
    return this.#insist !== null;
  }

  /** Has all written and then closes, or asks what else to do. Resolves when it has closed, or stays open after all. */
  leave(): Promise<void> {
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
    const trouble = await rows.retryAll();
    if (rows.count > 0) {
      await rescue();
      const isSettled = await this.#settle(trouble);
      await endRescue();
      if (!isSettled) return stay();
    }
    this.#mayClose = true;
    close();
  }

  /** Asks until nothing waits to be written any more; false where the window is to stay open. */
  async #settle(first: unknown): Promise<boolean> {
    const { rows, ask, keepElsewhere } = this.#options;
    for (let trouble = first; rows.count > 0;) {
      const answer = await this.#asking('drop', () => ask(trouble));
      if (answer === 'stay') return false;
      if (answer === 'drop' || (answer === 'elsewhere' && (await keepElsewhere()))) rows.dropAll();
      // Also where the folder did not do: meanwhile there may be room again.
      else trouble = await rows.retryAll();
    }
    return true;
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
