import { LRUCache } from 'lru-cache';

/** Pictures in memory, of several clips, by `owner/frame`; the one longest unused goes first. */
export type FrameCache = LRUCache<string, Uint8Array>;

/** A cache within so many bytes, > 0. A picture larger than that is not kept. */
export function createFrameCache(bytes: number): FrameCache {
  return new LRUCache({ maxSize: bytes, sizeCalculation: ({ byteLength }) => Math.max(1, byteLength) });
}
