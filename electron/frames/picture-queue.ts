import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';

interface Order {
  readonly urgent: boolean;
  readonly start: () => void;
}

/**
 * Makes pictures a few at a time: urgent ones before others, else in the order they were asked for. What is called off
 * while it waits is not made.
 */
export class PictureQueue {
  readonly #atOnce: number;
  readonly #waiting: Order[] = [];
  #running = 0;

  /** `atOnce` >= 1. */
  constructor(atOnce: number) {
    if (!Number.isInteger(atOnce) || atOnce < 1) throw new Error('PictureQueue.atOnce: must be an integer >= 1');
    this.#atOnce = atOnce;
  }

  /** Resolves or rejects as `make`; rejects as `cancelled` when the signal came first. */
  ask<T>(
    { urgent, signal }: { readonly urgent: boolean; readonly signal: AbortSignal },
    make: () => Promise<T>,
  ): Promise<T> {
    if (signal.aborted) return Promise.reject(cancelled());
    return new Promise<T>((resolve, reject) => {
      const callOff = (): void => {
        this.#waiting.splice(this.#waiting.indexOf(order), 1);
        reject(cancelled());
      };
      const start = (): void => {
        signal.removeEventListener('abort', callOff);
        this.#run(make).then(resolve, reject);
      };
      const order: Order = { urgent, start };
      signal.addEventListener('abort', callOff, { once: true });
      const place = urgent ? this.#waiting.findIndex((other) => !other.urgent) : -1;
      this.#waiting.splice(place < 0 ? this.#waiting.length : place, 0, order);
      this.#next();
    });
  }

  async #run<T>(make: () => Promise<T>): Promise<T> {
    this.#running += 1;
    try {
      return await make();
    } finally {
      this.#running -= 1;
      this.#next();
    }
  }

  #next(): void {
    while (this.#running < this.#atOnce) {
      const order = this.#waiting.shift();
      if (order === undefined) return;
      order.start();
    }
  }
}

function cancelled(): AppError {
  return new AppError('cancelled', say`Cancelled.`);
}
