import * as v from 'valibot';
import type { FrameSpan } from '../model/frame.ts';
import { DYNAMIC_RANGES } from '../time/clip-index.ts';
import type { ClipIndex, ShownFrame } from '../time/clip-index.ts';
import { captureRate } from './frames.ts';
import { countFromOne, countFromZero, positiveRatio, wholeNumber } from './scalars.ts';

/** Presentation order: time stamps rise strictly, so that an index and a time stamp name the same frame. */
const inOrder = (frames: readonly ShownFrame[]): boolean =>
  frames.every((frame, index) => index === 0 || frame.pts > (frames[index - 1]?.pts ?? Infinity));

export const shownFrames = v.pipe(
  v.array(v.strictObject({ pts: wholeNumber, ticks: countFromOne, key: v.boolean('must be true or false') })),
  v.minLength(1, 'must hold at least one frame'),
  v.check((frames) => inOrder(frames), 'must be in presentation order, each time stamp once'),
);

/** Sorted, with at least one sound frame between two spans, so that one damage has one way to be written. */
const apart = (spans: readonly FrameSpan[]): boolean =>
  spans.every(({ from, to }, place) => from <= to && from > (spans[place - 1]?.to ?? -2) + 1);

const damagedSpans = v.pipe(
  v.array(v.strictObject({ from: countFromZero, to: countFromZero })),
  v.check((spans) => apart(spans), 'must be sorted spans that do not touch'),
);

/** Whether damage lies within the frames there are. */
export const damageFits = ({ frames, damage }: Pick<ClipIndex, 'frames' | 'damage'>): boolean =>
  (damage.at(-1)?.to ?? -1) < frames.length;
export const DAMAGE_RULE = 'must have its damage within its frames';

/** The index that a JSON text holds; null when it holds none. */
export function clipIndexOfText(text: string): ClipIndex | null {
  const read = v.safeParse(v.pipe(v.string(), v.parseJson(), clipIndex), text);
  return read.success ? read.output : null;
}

/** All of a clip index but its frames. */
export const clipIndexFacts = v.strictObject({
  width: countFromOne,
  height: countFromOne,
  turn: v.picklist([0, 90, 180, 270]),
  mirrored: v.boolean('must be true or false'),
  pixelAspect: positiveRatio,
  timebase: positiveRatio,
  variable: v.boolean('must be true or false'),
  nominalRate: v.nullable(positiveRatio),
  captureRate: v.nullable(captureRate),
  sound: v.boolean('must be true or false'),
  dynamicRange: v.picklist(DYNAMIC_RANGES),
  damage: damagedSpans,
  leftOut: v.nullable(v.strictObject({ doubled: countFromZero, hidden: countFromZero, timeless: countFromZero })),
});

export const clipIndex: v.GenericSchema<unknown, ClipIndex> = v.pipe(
  v.strictObject({ ...clipIndexFacts.entries, frames: shownFrames }),
  v.check((index) => damageFits(index), DAMAGE_RULE),
);
