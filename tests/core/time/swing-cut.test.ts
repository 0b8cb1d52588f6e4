import { expect, test } from 'vitest';
import { slownessOf } from '../../../core/time/swing-clock.ts';
import { cutAbout } from '../../../core/time/swing-cut.ts';
import { clipIndexOf } from '../../support/clip-index.ts';

const everyTick = (frames: number): number[] => Array.from({ length: frames }, (_, frame) => frame);

test('three seconds before the strike are kept and two after it, as far as the clip goes', () => {
  const index = clipIndexOf(everyTick(300), 30);
  expect(cutAbout(index, 150)).toEqual({ from: 60, to: 210 });
  expect(cutAbout(index, 20)).toEqual({ from: 0, to: 80 });
  expect(cutAbout(index, 290)).toEqual({ from: 200, to: 299 });
});

test('they are seconds of the swing, also where a camera took more pictures than are played', () => {
  const framesPerSecond = { num: 240, den: 1 };
  const captureRate = { framesPerSecond, confirmed: true } as const;
  const index = clipIndexOf(everyTick(3000), 30, { nominalRate: { num: 30, den: 1 }, captureRate });
  expect(slownessOf(index)).toBe(8);
  expect(cutAbout(index, 1000)).toEqual({ from: 280, to: 1480 });
});
