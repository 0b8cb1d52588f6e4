import { setImmediate as nextTurn } from 'node:timers/promises';
import { AppError } from '../../core/model/errors.ts';

export interface WriteRowOptions<Write> {
  /** Carries a write out; throws where that cannot be done. */
  readonly carryOut: (write: Write) => unknown;
  /** Two writes, one after the other, as one; null where each has to be made. */
  readonly join: (first: Write, next: Write) => Write | null;
}

interface Entry<Write> {
  write: Write;
  /** Who waits to hear of it. */
  askers: { readonly done: (earlier: unknown) => void; readonly failed: (error: unknown) => void }[];
}

/**
 * Writes that the window asked for, carried out one after another in the order they came. They wait here and not in the
 * page, so that neither a page that dies nor a window that closes takes any along. What cannot be written is told to
 * whoever asked, and stays at the head of the row: nothing after it is lost or overtakes it. What is refused, now and for
 * ever, is let go; of what had stayed, whoever next hears from the row is told.
 */
export class WriteRow<Write> {
  readonly #options: WriteRowOptions<Write>;
  #entries: Entry<Write>[] = [];
  /** The one that is being carried out; nothing may be joined to it any more. */
  #begun: Entry<Write> | null = null;
  #running: Promise<unknown> | null = null;
  /** The first refusal of what had stayed, which nobody has heard of yet: its asker was told long ago that it waits. */
  #untold: unknown = null;

  constructor(options: WriteRowOptions<Write>) {
    this.#options = options;
  }

  /** What is not written, in order. */
  get waiting(): readonly Write[] {
    return this.#entries.map(({ write }) => write);
  }

  /**
   * Resolves when this is written, with the refusal of an earlier write that had stayed, or null; rejects with what kept it
   * from being written. Either way the next put tries the row anew.
   */
  put(write: Write): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const asker = { done: resolve, failed: reject };
      const last = this.#entries.at(-1);
      const joined = last === undefined || last === this.#begun ? null : this.#options.join(last.write, write);
      if (last === undefined || joined === null) this.#entries.push({ write, askers: [asker] });
      else {
        last.write = joined;
        last.askers.push(asker);
      }
      void this.retry();
    });
  }

  /** Tries to write all that waits; resolves with what kept it from that, or with a refusal not told yet, or null. */
  retry(): Promise<unknown> {
    this.#running ??= this.#run();
    return this.#running;
  }

  /** Lets go of all that waits: somebody said so, or it is settled in another way. */
  drop(): void {
    for (const entry of this.#entries.splice(0)) for (const { done } of entry.askers) done(null);
  }

  async #run(): Promise<unknown> {
    for (;;) {
      // What came together is joined before it is written.
      await nextTurn();
      const [first] = this.#entries;
      if (first === undefined) return this.#ended(this.#takeUntold());
      this.#begun = first;
      try {
        await this.#options.carryOut(first.write);
      } catch (error) {
        if (!isRefused(error)) {
          for (const entry of this.#entries) for (const { failed } of entry.askers.splice(0)) failed(error);
          return this.#ended(error);
        }
        this.#entries = this.#entries.filter((entry) => entry !== first);
        if (first.askers.length === 0) this.#untold ??= error;
        for (const { failed } of first.askers) failed(error);
        continue;
      } finally {
        this.#begun = null;
      }
      this.#entries = this.#entries.filter((entry) => entry !== first);
      for (const { done } of first.askers) done(this.#takeUntold());
    }
  }

  #takeUntold(): unknown {
    const untold = this.#untold;
    this.#untold = null;
    return untold;
  }

  /** At once, so that whatever is put from here on begins a run of its own. */
  #ended(trouble: unknown): unknown {
    this.#running = null;
    return trouble;
  }
}

/** What the book will not take, now or later: the view of another clip, say, or a mark on a clip that was removed. */
export function isRefused(error: unknown): boolean {
  return error instanceof AppError && (error.code === 'bad-request' || error.code === 'no-such-record');
}
