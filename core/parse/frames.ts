import * as v from 'valibot';
import { CHECKPOINTS } from '../model/words.ts';
import { byName } from './by-name.ts';
import { countFromOne, countFromZero, positiveRatio, wholeNumber } from './scalars.ts';

export const frameRef = v.strictObject({ index: countFromZero, pts: wholeNumber });
export const checkpointFrame = v.strictObject({ index: countFromZero, pts: wholeNumber, ticks: countFromOne });
export const captureRate = v.strictObject({
  framesPerSecond: positiveRatio,
  confirmed: v.boolean('must be true or false'),
});
export const checkpoint = v.picklist(CHECKPOINTS);
export const checkpointFrames = byName(CHECKPOINTS, checkpointFrame);
