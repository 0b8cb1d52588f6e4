/** Where saving stands, for the small word in the corner. */
export type SaveState = 'saved' | 'saving' | 'not saved';

/** One thing to write. */
export type Write = () => Promise<unknown>;

export interface Autosave {
  put(write: Write): void;
  /** Tries again what could not be written. */
  retry(): void;
  /** Lets go of all that waits, where it can never be written. */
  drop(): void;
  /** How many writes still wait or run. */
  waiting(): number;
  /** How many writes were put in all; another number later says that something was changed meanwhile. */
  count(): number;
  /** Settles when nothing waits or runs any more (also when a write failed). */
  settled(): Promise<void>;
}

/**
 * Writes one after another, in the order they came, so that the book sees changes as the coach made them. A write that
 * fails is kept and stops the row: nothing after it is lost or overtakes it.
 */
export function createAutosave(report: (state: SaveState) => void, failed: (error: unknown) => void): Autosave {
  const waiting: Write[] = [];
  let count = 0;
  let running: Promise<void> | null = null;

  async function runAll(): Promise<void> {
    for (let write = waiting[0]; write !== undefined; write = waiting[0]) {
      try {
        await write();
      } catch (error) {
        report('not saved');
        failed(error);
        return;
      }
      waiting.shift();
    }
    report('saved');
  }

  function start(): void {
    if (running !== null || waiting.length === 0) return;
    report('saving');
    running = runAll().finally(() => {
      running = null;
    });
  }

  return {
    put(write) {
      waiting.push(write);
      count += 1;
      start();
    },
    retry: start,
    drop() {
      waiting.length = 0;
      report('saved');
    },
    waiting: () => waiting.length,
    count: () => count,
    async settled() {
      await running;
    },
  };
}
