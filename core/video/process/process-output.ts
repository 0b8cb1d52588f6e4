import { Socket } from 'node:net';
import type { Readable } from 'node:stream';

/**
 * What a process writes, chunk by chunk and in order, for one reader. A chunk holds until the next one is asked for: all of them
 * come in the same memory. Nothing is read before it is asked for, so that a process whose pipe is full stands still. What a
 * reader leaves is dropped.
 */
export interface ProcessOutput extends AsyncIterable<Uint8Array> {
  /** Whether somebody has begun to read it, or to drop it. */
  readonly isRead: boolean;
  /** Reads to the end and drops what comes; nothing where somebody reads already. */
  drain(): void;
  /** No more is read; whoever waits for a chunk finds the end. Harmless when it has ended. */
  destroy(): void;
  /** Resolves when all was read or it was destroyed. Never rejects. */
  readonly closed: Promise<void>;
}

/**
 * Larger than what a pipe holds by default, bytes. Node gives each 64 KB that a stream reads a memory of its own, which within
 * Electron costs more than reading them: 9 ms of processor time a megabyte for 1 (docs/bench.md).
 */
const CHUNK_BYTES = 256 * 1024;

/** The native end of a child's stream, which Node itself hands to a Socket. */
interface WithHandle {
  _handle?: object | null;
}

/** Takes over a child's stream that nobody has read from yet; it is closed by this. */
export function takeOutput(stream: Readable): ProcessOutput {
  const holder = stream as WithHandle;
  const handle = holder._handle ?? null;
  if (handle === null) return plainOutput(stream);
  holder._handle = null;
  stream.destroy();
  return new ReusedOutput(handle);
}

/** Each chunk in a memory of its own, where the stream's native end cannot be had. */
function plainOutput(stream: Readable): ProcessOutput {
  stream.on('error', () => undefined);
  const closed = new Promise<void>((resolve) => stream.once('close', resolve));
  let isRead = false;
  return {
    get isRead() {
      return isRead;
    },
    async *[Symbol.asyncIterator]() {
      refuseSecond(isRead);
      isRead = true;
      try {
        yield* stream.iterator({ destroyOnReturn: false });
      } finally {
        stream.resume();
      }
    },
    drain() {
      if (isRead) return;
      isRead = true;
      stream.resume();
    },
    destroy: () => void stream.destroy(),
    closed,
  };
}

function refuseSecond(isRead: boolean): void {
  if (isRead) throw new Error('the output of a process has one reader');
}

class ReusedOutput implements ProcessOutput {
  readonly closed: Promise<void>;
  readonly #socket: Socket;
  #isRead = false;
  #isClosed = false;
  #give: ((chunk: Uint8Array | null) => void) | null = null;

  constructor(handle: object) {
    const buffer = new Uint8Array(CHUNK_BYTES);
    const callback = (count: number): boolean => {
      const give = this.#give;
      this.#give = null;
      give?.(buffer.subarray(0, count));
      // Stands still until the chunk is used up.
      return false;
    };
    // `handle` is how Node makes the streams of a child; its types do not tell of it.
    const options = { handle, manualStart: true, onread: { buffer, callback } };
    this.#socket = new Socket(options as ConstructorParameters<typeof Socket>[0]);
    // The child's own stream reads ahead from the first.
    this.#socket.pause();
    this.#socket.on('error', () => undefined);
    this.closed = new Promise((resolve) => {
      this.#socket.once('close', () => {
        this.#isClosed = true;
        this.#give?.(null);
        this.#give = null;
        resolve();
      });
    });
  }

  get isRead(): boolean {
    return this.#isRead;
  }

  #next(): Promise<Uint8Array | null> {
    if (this.#isClosed) return Promise.resolve(null);
    return new Promise((resolve) => {
      this.#give = resolve;
      this.#socket.resume();
    });
  }

  async *[Symbol.asyncIterator](): AsyncGenerator<Uint8Array> {
    refuseSecond(this.#isRead);
    this.#isRead = true;
    try {
      for (let chunk = await this.#next(); chunk !== null; chunk = await this.#next()) yield chunk;
    } finally {
      void this.#dropRest();
    }
  }

  async #dropRest(): Promise<void> {
    while ((await this.#next()) !== null);
  }

  drain(): void {
    if (this.#isRead) return;
    this.#isRead = true;
    void this.#dropRest();
  }

  destroy(): void {
    this.#socket.destroy();
  }
}
