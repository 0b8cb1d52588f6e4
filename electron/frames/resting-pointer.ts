import type { LookedAt } from '../../core/video/proxy/copy-order.ts';

/** So long without a move a hand counts as resting, ms: a copy that followed each move would never get anywhere. */
const REST_MS = 300;

/** Where in a clip a hand rests, and which frames have a name: what its copy is made of first. */
export class RestingPointer {
  readonly #now: () => number;
  #looked: LookedAt;
  #at: number | null = null;
  #movedMs = 0;

  /** `now` in ms, rising. */
  constructor(named: readonly number[], now = (): number => performance.now()) {
    this.#now = now;
    this.#looked = { pointer: null, named };
  }

  /** A hand asked for this frame. */
  move(frame: number): void {
    if (frame === this.#at) return;
    this.#at = frame;
    this.#movedMs = this.#now();
  }

  name(frames: readonly number[]): void {
    const { named, pointer } = this.#looked;
    if (frames.length === named.length && frames.every((frame, place) => frame === named[place])) return;
    this.#looked = { pointer, named: frames };
  }

  /** The same object as long as nothing of it changes. The first frame of all counts at once. */
  lookedAt(): LookedAt {
    const { pointer, named } = this.#looked;
    const rests = pointer === null || this.#now() - this.#movedMs >= REST_MS;
    if (this.#at !== pointer && rests) this.#looked = { pointer: this.#at, named };
    return this.#looked;
  }
}
