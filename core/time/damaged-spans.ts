import type { FrameSpan } from '../model/frame.ts';
import type { ClipIndex } from './clip-index.ts';

/** The spans of places that hold true, in order; between two of them lies at least one place that does not. */
export function spansOf(damaged: readonly boolean[]): FrameSpan[] {
  const spans: FrameSpan[] = [];
  damaged.forEach((is, place) => {
    if (!is) return;
    const open = spans.at(-1);
    if (open?.to === place - 1) spans[spans.length - 1] = { from: open.from, to: place };
    else spans.push({ from: place, to: place });
  });
  return spans;
}

/** Whether the picture of a frame cannot be trusted. False for a frame that is not there. */
export function isDamaged({ damage }: Pick<ClipIndex, 'damage'>, frame: number): boolean {
  return damage.some(({ from, to }) => from <= frame && frame <= to);
}

/** How many frames are damaged. */
export function damagedCount({ damage }: Pick<ClipIndex, 'damage'>): number {
  return damage.reduce((sum, { from, to }) => sum + to - from + 1, 0);
}
