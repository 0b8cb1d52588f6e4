import type { MarkedClip } from '../../../core/model/swing.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../../core/model/words.ts';
import type { Checkpoint } from '../../../core/model/words.ts';

/** A named frame over the slider. */
export interface Flag {
  readonly checkpoint: Checkpoint;
  /** Place of its tick, in CSS pixels from the left end of the strip. */
  readonly left: number;
  /** How its name lies: over the tick, or from an end of the strip, which it would cross otherwise. */
  readonly from: 'middle' | 'start' | 'end';
  /** Empty where there is no room for the name: the tick alone stands there. */
  readonly text: string;
  /** 0 is next to the slider. */
  readonly row: 0 | 1;
}

/** Half the width of the slider's thumb in Chromium, in CSS pixels: its middle never reaches the ends of the track. */
export const HALF_THUMB = 8;
/** Widest a letter of the type face gets on average at 14 px, with the gap between two names. */
const LETTER = 7;
const GAP = 8;

/** Where the slider's thumb has its middle at a frame, also between two; CSS pixels from the left end of the strip. */
export function placeOnStrip(frame: number, lastFrame: number, width: number): number {
  const part = lastFrame === 0 ? 0 : frame / lastFrame;
  return HALF_THUMB + part * (width - 2 * HALF_THUMB);
}

/** The frame whose place is nearest; places beyond the ends mean the ends. */
export function frameOnStrip(left: number, lastFrame: number, width: number): number {
  const part = (left - HALF_THUMB) / Math.max(1, width - 2 * HALF_THUMB);
  return Math.round(Math.min(1, Math.max(0, part)) * lastFrame);
}

/**
 * Puts the names over their frames in two rows so that none lies on another or crosses an end of the strip. `textSize`: per
 * cent of the usual.
 */
export function placeFlags(
  clip: Pick<MarkedClip, 'checkpoints'>,
  lastFrame: number,
  width: number,
  textSize = 100,
): readonly Flag[] {
  const filledTo: [number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const named = CHECKPOINTS.flatMap((checkpoint) => {
    const frame = clip.checkpoints[checkpoint];
    return frame === undefined ? [] : [{ checkpoint, frame: frame.index }];
  }).toSorted((one, other) => one.frame - other.frame);
  return named.map(({ checkpoint, frame }): Flag => {
    const left = placeOnStrip(frame, lastFrame, width);
    const label = CHECKPOINT_LABELS[checkpoint];
    const wide = (label.length * LETTER * textSize) / 100;
    const from = left < wide / 2 ? 'start' : left + wide / 2 > width ? 'end' : 'middle';
    const begins = from === 'start' ? 0 : from === 'end' ? width - wide : left - wide / 2;
    const row = filledTo[0] + GAP <= begins ? 0 : 1;
    if (filledTo[row] + GAP > begins) return { checkpoint, left, from, text: '', row: 0 };
    filledTo[row] = begins + wide;
    return { checkpoint, left, from, text: label, row };
  });
}
