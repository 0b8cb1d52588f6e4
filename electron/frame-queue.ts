/** Work that has begun or waits, under the name of what it makes. */
interface Order<T> {
  readonly start: () => Promise<T>;
  readonly settle: (result: Promise<T>) => void;
}

/**
 * Makes pictures a few at a time, the newest asked for first: a coach who steps on wants the frame now on screen, not the
 * ones passed over. (The window's cancelled requests never reach a protocol's handler, so order is what is left to use.)
 * The same picture asked for twice is made once. Older orders wait, none is dropped.
 */
export class FrameQueue<T> {
  readonly #atOnce: number;
  readonly #waiting: Order<T>[] = [];
  readonly #pending = new Map<string, Promise<T>>();
  #running = 0;

  /** `atOnce` >= 1. */
  constructor(atOnce: number) {
    if (!Number.isInteger(atOnce) || atOnce < 1) throw new Error('FrameQueue.atOnce: must be an integer >= 1');
    this.#atOnce = atOnce;
  }

  /** The picture called `name`: the one being made already, or a new order on top of the pile. */
  ask(name: string, start: () => Promise<T>): Promise<T> {
    const pending = this.#pending.get(name);
    if (pending !== undefined) return pending;
    const result = new Promise<T>((settle) => this.#waiting.push({ start, settle }));
    this.#pending.set(name, result);
    const forget = (): void => {
      this.#pending.delete(name);
    };
    result.then(forget, forget);
    this.#next();
    return result;
  }

  #next(): void {
    if (this.#running >= this.#atOnce) return;
    const order = this.#waiting.pop();
    if (order === undefined) return;
    this.#running += 1;
    const made = order.start();
    order.settle(made);
    const after = (): void => {
      this.#running -= 1;
      this.#next();
    };
    made.then(after, after);
  }
}
