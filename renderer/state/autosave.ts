/** Where saving stands, for the small word in the corner. */
export type SaveState = 'saved' | 'saving' | 'not saved';

/** One thing to write. A later write of the same `key` replaces one that still waits. */
export interface Write {
  readonly key: string;
  run(): Promise<unknown>;
}

export interface Autosave {
  put(write: Write): void;
  /** Tries again what could not be written. */
  retry(): void;
  /** Settles when nothing waits or runs any more (also when a write failed). */
  settled(): Promise<void>;
}

/**
 * Writes one after another, in the order they came, so that the book sees changes as the coach made them. A write that
 * fails is kept and stops the row: nothing after it is lost or overtakes it.
 */
export function createAutosave(report: (state: SaveState) => void, failed: (error: unknown) => void): Autosave {
  let waiting: Write[] = [];
  let running: Promise<void> | null = null;

  async function runAll(): Promise<void> {
    for (let write = waiting.shift(); write !== undefined; write = waiting.shift()) {
      try {
        await write.run();
      } catch (error) {
        const later = waiting.some((other) => other.key === write?.key);
        if (!later) waiting.unshift(write);
        report('not saved');
        failed(error);
        return;
      }
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
      waiting = [...waiting.filter((other) => other.key !== write.key), write];
      start();
    },
    retry: start,
    async settled() {
      await running;
    },
  };
}
