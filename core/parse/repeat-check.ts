import * as v from 'valibot';
import { BODY_POINTS } from '../model/body-points.ts';
import type { NewRepeatCheck } from '../model/repeat-check.ts';
import { byName } from './by-name.ts';
import { frameRef } from './frames.ts';
import { picturePoint } from './marks.ts';
import { identifier } from './scalars.ts';

/** An instant of UTC as `Date.toISOString` writes it, of a day that there is. */
export const instant = v.pipe(
  v.string('must be text'),
  v.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/, 'must be an instant, written like 2026-05-12T09:30:00.000Z'),
  v.check((text) => {
    const time = Date.parse(text);
    // The 31st of a shorter month is read as the day after.
    return Number.isFinite(time) && new Date(time).toISOString() === text;
  }, 'must be an instant that there is'),
);

const placings = v.pipe(
  byName(BODY_POINTS, v.pipe(v.array(picturePoint), v.minLength(2, 'must have two places or more'))),
  v.check((of) => Object.keys(of).length > 0, 'must have a body point'),
);

export const newRepeatCheck: v.GenericSchema<unknown, NewRepeatCheck> = v.strictObject({
  at: instant,
  frames: v.pipe(
    v.array(v.strictObject({ clipId: identifier, frame: frameRef, placings })),
    v.minLength(1, 'must have a frame'),
    v.check(
      (frames) => new Set(frames.map(({ clipId, frame }) => `${clipId} ${String(frame.index)}`)).size === frames.length,
      'must have each frame of a clip once',
    ),
    v.check(
      (frames) =>
        new Set(frames.flatMap((each) => Object.values(each.placings).map(({ length }) => length))).size === 1,
      'must have as many places for every point',
    ),
  ),
});
