import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { isDamaged } from '../../../core/time/damaged-spans.ts';

/** The frames that a strip of `count` pictures shows, each the middle of its part of the clip. */
export function stripFrames(frameCount: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, cell) =>
    Math.min(frameCount - 1, Math.floor(((cell + 0.5) * frameCount) / count)),
  );
}

/**
 * Key pictures that stand in for these frames until the copy has them, each once: a decoder makes one of them without any
 * other. Coarse to fine: the middle, then the middles of both halves. None in a clip whose table has no key pictures.
 */
export function standIns(index: ClipIndex, frames: readonly number[]): readonly number[] {
  const keys = frames.flatMap((frame) => nearestKey(index, frame) ?? []);
  return coarseToFine([...new Set(keys)]);
}

/** The key picture that is nearest and can be trusted, before or after; the earlier of two. */
function nearestKey(index: ClipIndex, frame: number): number | null {
  const isKey = (at: number): boolean => index.frames[at]?.key === true && !isDamaged(index, at);
  for (let off = 0; off < index.frames.length; off += 1) {
    if (isKey(frame - off)) return frame - off;
    if (isKey(frame + off)) return frame + off;
  }
  return null;
}

/** The same, so that whatever has come lies as evenly as it can. */
export function coarseToFine<T>(items: readonly T[]): readonly T[] {
  const order: T[] = [];
  let parts: (readonly T[])[] = [items];
  while (parts.length > 0) {
    const next: (readonly T[])[] = [];
    for (const part of parts) {
      const middle = Math.floor(part.length / 2);
      order.push(...part.slice(middle, middle + 1));
      next.push(...[part.slice(0, middle), part.slice(middle + 1)].filter(({ length }) => length > 0));
    }
    parts = next;
  }
  return order;
}

/** What each cell of a strip shows: always the picture that came nearest to its frame, so that none stays empty. */
export class StripCells {
  readonly #frames: readonly number[];
  readonly #off: number[];

  constructor(frames: readonly number[]) {
    this.#frames = frames;
    this.#off = frames.map(() => Infinity);
  }

  /** Takes a picture of this frame, and names the cells that it is to be painted in. */
  take(frame: number): readonly number[] {
    return this.#frames.flatMap((wanted, cell) => {
      const off = Math.abs(wanted - frame);
      if (off >= (this.#off[cell] ?? 0)) return [];
      this.#off[cell] = off;
      return [cell];
    });
  }

  /** Cells that show their own frame. */
  get exact(): number {
    return this.#off.filter((off) => off === 0).length;
  }

  isExact(cell: number): boolean {
    return this.#off[cell] === 0;
  }
}
