import type { ShownFrame } from './clip-index.ts';
import type { TimedPicture } from './shown-frames.ts';

/**
 * Whether the times of a clip rise from group to group: what is coded before a key picture is also shown before it.
 * Where they go backwards, which picture has a time depends on where decoding began, so that it may only begin at the
 * start. `pictures` in file order; hidden ones and those without a time count for nothing.
 */
export function timesRise(pictures: readonly TimedPicture[]): boolean {
  let latest = -Infinity;
  for (const { pts, key, hidden } of pictures) {
    if (pts === null || hidden) continue;
    if (key && pts < latest) return false;
    latest = Math.max(latest, pts);
  }
  return true;
}

/** The same frames with none at which decoding may begin. */
export function withoutEntries(frames: readonly ShownFrame[]): readonly ShownFrame[] {
  return frames.map((frame) => ({ ...frame, key: false }));
}
