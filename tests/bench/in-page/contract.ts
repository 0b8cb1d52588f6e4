import type { Place } from '../clips/code-strip.ts';

/**
 * What the bench puts into the page: eyes on the canvas of the frame and hands on keys and fields. Everything that is timed
 * happens inside the page, so that no time is lost on the way to it. The functions of this folder are sent there as text:
 * they may use nothing from outside themselves.
 */

/**
 * A picture that was painted on the bench, or of a file that is being looked at before it is added, or data that came in.
 * `at` in ms of the page's clock.
 */
export interface Seen {
  readonly kind: 'painted' | 'looked' | 'arrived';
  readonly index: number;
  /** As the canvas said at that time. */
  readonly quality: string;
  readonly at: number;
}

/** A paint as it stands on the canvas once its pixels have been read back. */
export interface ReadPaint extends Seen {
  /** The number in the picture, or null when it is not readable. */
  readonly code: number | null;
  /** When the pixels had been read: the picture was then surely drawn, not only ordered. */
  readonly drawnAt: number;
}

export interface Order {
  /** Jump by the frame field, or press a key on the bench. */
  readonly act: { readonly kind: 'jump' } | { readonly kind: 'key'; readonly key: string; readonly shift: boolean };
  /** The frame that this asks for. */
  readonly target: number;
  readonly want: 'any' | 'sharp';
  /** How long the hand rests before, ms. */
  readonly pause: number;
  /** How long to wait for the picture, ms. */
  readonly limit: number;
}

/** Times in ms since the key or Enter was pressed; null for what did not happen. */
export interface Answer {
  readonly target: number;
  /** The frame's data came into the page after the order; null when it had come before. */
  readonly data: number | null;
  /** The picture was handed to the canvas. */
  readonly handed: number | null;
  /** Its pixels were on the canvas and had been read back. */
  readonly drawn: number | null;
  readonly code: number | null;
}

export interface Checked {
  readonly paints: number;
  readonly sharp: number;
  /** Told in words, at most 20 of them. */
  readonly wrong: readonly string[];
  readonly wrongCount: number;
}

export interface Dragged {
  readonly moves: number;
  /** Times that the canvas of the marks was painted. */
  readonly renders: number;
  /** From the first move to the picture after the last, ms. */
  readonly elapsed: number;
  /** The longest time from one picture of the screen to the next, ms. */
  readonly slowest: number;
}

export interface BenchInPage {
  /** Middles of the cells of the code strip in the picture. */
  cells: readonly Place[];
  least: number;
  /** Painted and arrived, since the last `forget`. */
  readonly seen: Seen[];
  /** Called with every picture, at once; reading the pixels of the bench is left to whoever wants to know. */
  readonly listeners: Set<(seen: Seen) => void>;
  canvas(): HTMLCanvasElement | null;
  /** Reads the number in the picture on the canvas. */
  readCode(): number | null;
  forget(): void;
  carryOut(orders: readonly Order[]): Promise<readonly Answer[]>;
  /** Slides over frames as a hand on the strip does, one every `every` ms; then waits for the last. */
  slide(frames: readonly number[], every: number, limit: number): Promise<boolean>;
  /** Drags what lies at a place of the window, one move a picture of the screen. */
  drag(from: { readonly x: number; readonly y: number }, moves: number): Promise<Dragged>;
  /** From now on holds the code of every paint against the number that its frame has, until `endChecking`. */
  beginChecking(codes: readonly number[]): void;
  endChecking(): Checked;
}

declare global {
  interface Window {
    bench: BenchInPage;
  }
}
