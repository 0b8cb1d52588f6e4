import { expect, test } from 'vitest';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import { readClip } from '../../../core/measure/readings/read-swing.ts';
import { ALL_SHAPES, inventedSwing } from './invented-swing.ts';

const RIGHT = { handedness: 'right', clips: [] } as const;

function firstClip(shapes = ALL_SHAPES) {
  const [clip] = inventedSwing(shapes).clips;
  if (clip === undefined) throw new Error('the invented swing has no clip');
  return clip;
}

test('a clip that has not changed is not read again; an equal one that was edited is, and says the same', () => {
  const clip = firstClip();
  const first = readClip(RIGHT, clip, ASSUMED_PLACING, 'calibrated');
  expect(readClip(RIGHT, clip, ASSUMED_PLACING, 'calibrated')).toBe(first);
  const copy = readClip(RIGHT, { ...clip }, ASSUMED_PLACING, 'calibrated');
  expect(copy).not.toBe(first);
  expect(copy).toEqual(first);
});

test('what changes the readings of the same clip is never mixed up', () => {
  const clip = firstClip();
  const first = readClip(RIGHT, clip, ASSUMED_PLACING, 'calibrated');
  for (const [handedness, placing, lengths] of [
    ['left', ASSUMED_PLACING, 'calibrated'],
    ['right', { known: {}, assumed: 6 }, 'calibrated'],
    ['right', ASSUMED_PLACING, 'relative'],
  ] as const) {
    const other = readClip({ handedness, clips: [] }, clip, placing, lengths);
    expect(other).not.toEqual(first);
    expect(other).toEqual(readClip({ handedness, clips: [] }, { ...clip }, placing, lengths));
  }
  expect(readClip(RIGHT, clip, ASSUMED_PLACING, 'calibrated')).toBe(first);
});

test('without a known length both ways of stating lengths are one', () => {
  const clip = firstClip({ ...ALL_SHAPES, knownLength: false });
  expect(readClip(RIGHT, clip, ASSUMED_PLACING, 'calibrated')).toBe(readClip(RIGHT, clip, ASSUMED_PLACING, 'relative'));
});
