import * as v from 'valibot';
import type { ClipIndex, ShownFrame } from '../time/clip-index.ts';
import { captureRate } from './frames.ts';
import { countFromOne, positiveRatio, wholeNumber } from './scalars.ts';

/** Presentation order: time stamps rise strictly, so that an index and a time stamp name the same frame. */
const inOrder = (frames: readonly ShownFrame[]): boolean =>
  frames.every((frame, index) => index === 0 || frame.pts > (frames[index - 1]?.pts ?? Infinity));

export const shownFrames = v.pipe(
  v.array(v.strictObject({ pts: wholeNumber, ticks: countFromOne, key: v.boolean('must be true or false') })),
  v.minLength(1, 'must hold at least one frame'),
  v.check((frames) => inOrder(frames), 'must be in presentation order, each time stamp once'),
);

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
});

export const clipIndex: v.GenericSchema<unknown, ClipIndex> = v.strictObject({
  ...clipIndexFacts.entries,
  frames: shownFrames,
});
