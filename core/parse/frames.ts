import * as v from 'valibot';
import { CHECKPOINTS } from '../model/words.ts';
import { byName } from './by-name.ts';
import { countFromOne, countFromZero, positiveRatio, wholeNumber } from './scalars.ts';

export const frameIndex = v.pipe(
  countFromZero,
  v.description('Counts the shown frames of the clip from 0, in the order in which they are shown.'),
);
export const timeStamp = v.pipe(wholeNumber, v.description("Time stamp of a frame in ticks of the clip's time base."));
export const frameRef = v.pipe(
  v.strictObject({ index: frameIndex, pts: timeStamp }),
  v.description('One frame of the clip.'),
);
export const checkpointFrame = v.pipe(
  v.strictObject({
    index: frameIndex,
    pts: timeStamp,
    ticks: v.pipe(countFromOne, v.description("How long the frame stays on screen, in ticks of the clip's time base.")),
  }),
  v.description('The frame that bears this name.'),
);
export const captureRate = v.strictObject({
  framesPerSecond: v.pipe(positiveRatio, v.description('Frames a second the camera really took.')),
  confirmed: v.pipe(
    v.boolean('must be true or false'),
    v.description('true: said by the coach. false: only claimed by the clip file.'),
  ),
});
export const checkpoint = v.pipe(v.picklist(CHECKPOINTS), v.description('A named instant of a swing.'));
export const checkpointFrames = byName(CHECKPOINTS, checkpointFrame);
