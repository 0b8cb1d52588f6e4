import { say } from '../../../core/model/say.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { placeOnStrip } from './flags.ts';

/** A damaged stretch under the slider. */
export interface DamageMark {
  /** Left end and width, in CSS pixels from the left end of the strip. */
  readonly left: number;
  readonly width: number;
  /** e.g. "Frames 57 to 71 are damaged". */
  readonly text: string;
}

/** So that a single frame of a long clip can be seen, with its hatching, in CSS pixels. */
const LEAST_WIDTH = 10;

/** Puts a mark under the frames of each damaged span, from half a frame before it to half a frame after it. */
export function placeDamage(
  { damage, frames }: Pick<ClipIndex, 'damage' | 'frames'>,
  stripWidth: number,
): readonly DamageMark[] {
  const last = frames.length - 1;
  return damage.map(({ from, to }): DamageMark => {
    const [begin, end] = [from - 0.5, to + 0.5].map((at) =>
      placeOnStrip(Math.min(last, Math.max(0, at)), last, stripWidth),
    );
    const middle = ((begin ?? 0) + (end ?? 0)) / 2;
    const width = Math.max(LEAST_WIDTH, (end ?? 0) - (begin ?? 0));
    const left = Math.max(0, Math.min(stripWidth - width, middle - width / 2));
    const text =
      from === to ? say`Frame ${String(from)} is damaged` : say`Frames ${String(from)} to ${String(to)} are damaged`;
    return { left, width, text };
  });
}
