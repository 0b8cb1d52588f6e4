import type { WindowPicture } from '../../core/video/decode/frame-window.ts';

/** Makes what it can of these frames, and hands each on as soon as it is there. It rejects where it can make none. */
export type MakeAll = (
  frames: readonly number[],
  signal: AbortSignal,
  deliver: (frame: number, picture: WindowPicture) => void,
) => Promise<void>;

interface Wanted {
  readonly frame: number;
  readonly signal: AbortSignal;
  readonly resolve: (picture: WindowPicture | null) => void;
}

/** Requests of a page come one by one, ms. */
const GATHER_MS = 10;

/** Pictures that are asked for at the same time and made in one go. */
export class StripPictures {
  readonly #makeAll: MakeAll;
  #gathering: Wanted[] = [];
  #going = 0;

  constructor(makeAll: MakeAll) {
    this.#makeAll = makeAll;
  }

  /** Whether somebody waits for one. */
  get busy(): boolean {
    return this.#gathering.length > 0 || this.#going > 0;
  }

  /** The picture of a frame; null where it did not come so, or nobody wants it any more. Never rejects. */
  picture(frame: number, signal: AbortSignal): Promise<WindowPicture | null> {
    return new Promise((resolve) => {
      if (this.#gathering.length === 0) setTimeout(() => void this.#begin(), GATHER_MS);
      this.#gathering.push({ frame, signal, resolve });
    });
  }

  async #begin(): Promise<void> {
    const wanted = this.#gathering.filter(({ signal }) => !signal.aborted);
    for (const { signal, resolve } of this.#gathering) if (signal.aborted) resolve(null);
    this.#gathering = [];
    if (wanted.length === 0) return;
    // It ends once nobody is left who waits.
    const stop = new AbortController();
    const look = (): void => {
      if (wanted.every(({ signal }) => signal.aborted)) stop.abort();
    };
    for (const { signal } of wanted) signal.addEventListener('abort', look, { once: true });
    this.#going += 1;
    try {
      const frames = [...new Set(wanted.map(({ frame }) => frame))];
      await this.#makeAll(frames, stop.signal, (frame, picture) => {
        for (const each of wanted) if (each.frame === frame) each.resolve(picture);
      });
    } catch {
      // Each is made by itself then, and says what is wrong.
    } finally {
      this.#going -= 1;
      for (const { signal, resolve } of wanted) {
        signal.removeEventListener('abort', look);
        resolve(null);
      }
    }
  }
}
