import type { ChildProcess } from 'node:child_process';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { startOwnProcess } from './own-process.ts';

/**
 * How long one order may take, ms, once the process has begun with it. A file on a share whose computer is gone never
 * opens, and a hostile file can keep its reader busy for ever.
 */
const ANSWER_LIMIT_MS = 4000;
/** How long a process may take to start on a busy machine, ms. */
const START_LIMIT_MS = 30_000;
/** Processes kept for the next order. */
const KEPT_READY = 1;
/** How long an order waits for one that is busy, ms. An order takes a few; to start another process takes hundreds. */
const BUSY_LIMIT_MS = 100;
/** Processes that wait for ever and cannot be ended; beyond that many no more are sent after them. */
const MOST_LEFT_BEHIND = 8;

/** What such a process says: that it has the order and begins, from when on it is waited for, then its answer. */
export type Said<Answer> = { readonly type: 'begun' } | { readonly type: 'answer'; readonly answer: Answer };

/**
 * Processes of their own that answer one order after the other, each within four seconds. Whoever waits for a disk in
 * this process would keep one of the few threads that all reading of files shares, also when the program ends.
 */
export class StandingProcess<Order extends object, Answer> {
  /** Absolute path of the module that the process runs; it says `Said<Answer>` for each `Order`. */
  readonly #entry: string;
  readonly #ready: ChildProcess[] = [];
  /** Orders that wait for a process that is busy, the first come first. */
  readonly #waiting: ((child: ChildProcess) => void)[] = [];
  #busy = 0;
  /** Ended for taking too long, and not gone yet. */
  readonly #leftBehind = new Set<ChildProcess>();

  constructor(entry: string) {
    this.#entry = entry;
  }

  /** Makes a process ready for the next order, so that it need not be waited for. */
  prepare(): void {
    if (this.#ready.length === 0) this.#ready.push(this.#start());
  }

  /** Its answer; null when none came in time. Rejects when the process does not start, or ends by itself. */
  async ask(order: Order): Promise<Answer | null> {
    if (this.#leftBehind.size >= MOST_LEFT_BEHIND) return null;
    const child = await this.#take();
    return new Promise((done, fail) => {
      let timer = setTimeout(() => end(() => fail(new Error(`${this.#entry} does not start`))), START_LIMIT_MS);
      const hear = (said: Said<Answer>): void => {
        clearTimeout(timer);
        if (said.type === 'begun') {
          timer = setTimeout(() => end(() => done(null)), ANSWER_LIMIT_MS);
          return;
        }
        forget();
        this.#giveBack(child);
        done(said.answer);
      };
      const gone = (cause?: unknown): void => {
        forget();
        fail(new Error(`${this.#entry} ended by itself (${String(cause)})`, { cause }));
      };
      const end = (tell: () => void): void => {
        forget();
        this.#leftBehind.add(child);
        child.once('exit', () => this.#leftBehind.delete(child));
        child.kill('SIGKILL');
        if (child.connected) child.disconnect();
        tell();
      };
      const forget = (): void => {
        this.#busy -= 1;
        clearTimeout(timer);
        child.off('message', hear).off('error', gone).off('exit', gone);
      };
      child.on('message', hear).once('error', gone).once('exit', gone);
      child.send(order);
    });
  }

  /** A process that is free, or soon free, else a new one. */
  async #take(): Promise<ChildProcess> {
    const child = this.#ready.pop() ?? (this.#busy === 0 ? this.#start() : null);
    if (child === null) return (await this.#soonFree()) ?? this.#take();
    this.#busy += 1;
    return child;
  }

  /** One that an order is done with, handed on as busy; null when none comes free in time. */
  #soonFree(): Promise<ChildProcess | null> {
    return new Promise((done) => {
      const handOn = (child: ChildProcess): void => {
        clearTimeout(timer);
        done(child);
      };
      const timer = setTimeout(() => {
        this.#waiting.splice(this.#waiting.indexOf(handOn), 1);
        this.#ready.push(this.#start());
        done(null);
      }, BUSY_LIMIT_MS);
      this.#waiting.push(handOn);
    });
  }

  #giveBack(child: ChildProcess): void {
    const next = this.#waiting.shift();
    if (next !== undefined) {
      this.#busy += 1;
      next(child);
    } else if (this.#ready.length < KEPT_READY) this.#ready.push(child);
    else child.disconnect();
  }

  #start(): ChildProcess {
    // It ends when its line to us does. One that waits for a disk does not hear of it.
    const child = startOwnProcess(this.#entry);
    child.once('exit', () => {
      const place = this.#ready.indexOf(child);
      if (place >= 0) this.#ready.splice(place, 1);
    });
    return child;
  }
}

/** How long nothing is asked before a process tidies up, ms. */
const SWEEP_AFTER_MS = 500;

/** A process that stands ready for hours is as small after an order as before. Node sweeps only once room is short. */
function sweepHeap(): void {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
}

/** The other end, in the process itself: answers each order with what `work` makes of it, until who asked is gone. */
export function answerOrders<Order, Answer>(work: (order: Order) => Answer | Promise<Answer>): void {
  const say = (said: Said<Answer>): void => void process.send?.(said);
  let sweep: ReturnType<typeof setTimeout> | undefined;
  process.on('message', (order: Order) => {
    clearTimeout(sweep);
    say({ type: 'begun' });
    // Trouble nobody foresaw ends the process, which the one who asked hears of.
    void Promise.resolve(work(order)).then((answer) => {
      say({ type: 'answer', answer });
      sweep = setTimeout(sweepHeap, SWEEP_AFTER_MS);
    });
  });
  process.on('disconnect', () => process.exit());
}
