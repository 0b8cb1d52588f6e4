import * as v from 'valibot';
import { BODY_POINTS } from '../model/body-points.ts';
import type { NewRepeatCheck, RepeatNaming } from '../model/repeat-check.ts';
import { TIMED_CHECKPOINTS } from '../model/words.ts';
import { byName } from './by-name.ts';
import { frameRef } from './frames.ts';
import { instant } from './instant.ts';
import { picturePoint } from './marks.ts';
import { finiteNumber, identifier } from './scalars.ts';

const placings = v.pipe(
  byName(BODY_POINTS, v.pipe(v.array(picturePoint), v.minLength(2, 'must have two places or more'))),
  v.check((of) => Object.keys(of).length > 0, 'must have a body point'),
);

/** Two namings of one checkpoint lie a few frames apart; what is minutes away is no naming of it. */
const MOST_SECONDS = 60;
const seconds = v.pipe(finiteNumber, v.minValue(-MOST_SECONDS), v.maxValue(MOST_SECONDS));

export const repeatNaming: v.GenericSchema<unknown, RepeatNaming> = v.strictObject({
  clipId: identifier,
  checkpoint: v.picklist(TIMED_CHECKPOINTS, 'must be a checkpoint whose instant is read'),
  frameSeconds: v.pipe(finiteNumber, v.gtValue(0, 'must be more than 0'), v.maxValue(MOST_SECONDS)),
  after: v.pipe(v.array(seconds), v.minLength(2, 'must have two instants or more')),
});

export const newRepeatCheck: v.GenericSchema<unknown, NewRepeatCheck> = v.pipe(
  v.strictObject({ at: instant, frames: placedFrames(), namings: namedAgain() }),
  v.check(({ frames, namings }) => frames.length + namings.length > 0, 'must have a frame or a naming'),
);

function namedAgain() {
  return v.pipe(
    v.array(repeatNaming),
    v.check(
      (namings) => new Set(namings.map(({ clipId, checkpoint }) => `${clipId} ${checkpoint}`)).size === namings.length,
      'must have each checkpoint of a clip once',
    ),
  );
}

function placedFrames() {
  return v.pipe(
    v.array(v.strictObject({ clipId: identifier, frame: frameRef, placings })),
    v.check(
      (frames) => new Set(frames.map(({ clipId, frame }) => `${clipId} ${String(frame.index)}`)).size === frames.length,
      'must have each frame of a clip once',
    ),
    v.check(
      (frames) => new Set(frames.flatMap((each) => Object.values(each.placings).map(({ length }) => length))).size <= 1,
      'must have as many places for every point',
    ),
  );
}
