import { expect, test } from 'vitest';
import { listening, meterOf, peakOf, sixteenBit } from '../../../core/talk/sound-level.ts';
import { within } from '../../support/within.ts';

test('a peak is the largest of either sign, never more than full scale', () => {
  expect([peakOf(Float32Array.of(0.1, -0.5)), peakOf(Float32Array.of(-1.5)), peakOf(new Float32Array(0))]).toEqual([
    0.5, 1, 0,
  ]);
});

test('the meter is full at full scale, empty at -54 dB, half full half way between', () => {
  expect([meterOf(1), meterOf(0)]).toEqual([1, 0]);
  within(meterOf(10 ** (-54 / 20)), 0, 1e-9, 'at its floor');
  within(meterOf(10 ** (-27 / 20)), 0.5, 1e-9, 'half way');
});

test('nothing is said to be heard after five seconds without a word, and no longer once there is one', () => {
  const ear = listening();
  const said = Array.from({ length: 60 }, (_, step) => ear.heard(step === 5 ? 0.1 : 0.001, 100));
  // A word at 0.6 s: told from 5.6 s on.
  expect(said.indexOf(true)).toBe(55);
  expect(ear.heard(0.1, 100)).toBe(false);
});

test('16-bit samples keep to their range', () => {
  expect([...sixteenBit(Float32Array.of(0, 1, -1, 2, -2, 0.5))]).toEqual([0, 32_767, -32_767, 32_767, -32_767, 16_384]);
});
