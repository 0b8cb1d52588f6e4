import { LRUCache } from 'lru-cache';
import type { Size } from './view-transform.ts';

/** A decoded picture that must be closed when it is no longer shown or kept. */
export interface Picture extends Size {
  close(): void;
}

/** What a decoded picture takes, in bytes a pixel. */
const BYTES_A_PIXEL = 4;

/**
 * Keeps decoded pictures within so many bytes. What was longest unused goes first, as does what another takes the place of:
 * `drop` is told of each, and closes it.
 */
export function createPictureCache<Key extends string | number, Kept extends object>(options: {
  /** More than any single picture takes. */
  readonly bytes: number;
  readonly pictureOf: (kept: Kept) => Picture;
  readonly drop: (kept: Kept) => void;
}): LRUCache<Key, Kept> {
  const { bytes, pictureOf, drop } = options;
  const sizeCalculation = (kept: Kept): number => {
    const { width, height } = pictureOf(kept);
    return Math.max(1, width * height * BYTES_A_PIXEL);
  };
  return new LRUCache({ maxSize: bytes, sizeCalculation, dispose: drop });
}
