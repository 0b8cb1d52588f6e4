import { expect, test } from 'vitest';
import { trackThrough } from '../../../core/scene/track.ts';
import { within } from '../../support/within.ts';

const track = trackThrough([0, 1, 2, 4], [0, 0, 3, 1]);

test('goes through its keys and is held at both ends', () => {
  expect([-1, 0, 1, 2, 4, 9].map(track)).toEqual([0, 0, 0, 3, 1, 1]);
});

test('stands still between equal keys and never overshoots', () => {
  for (let t = 0; t <= 4; t += 0.01) {
    const value = track(t);
    if (t <= 1) expect(value).toBe(0);
    else expect(value >= 0 && value <= 3).toBe(true);
  }
});

test('has no corner: the slope just before a key is the slope just after it', () => {
  const step = 1e-6;
  for (const key of [1, 2])
    within((track(key) - track(key - step)) / step, (track(key + step) - track(key)) / step, 1e-4, 'slope');
});

test('wrong keys are refused', () => {
  expect(() => trackThrough([0], [1])).toThrow();
  expect(() => trackThrough([0, 0], [1, 2])).toThrow('increase');
  expect(() => trackThrough([0, 1], [1])).toThrow();
});
