import { expect, test } from 'vitest';
import { LOUDNESS_STEP_MS, loudnessOf, silencesIn } from '../../../core/talk/silence.ts';
import { within } from '../../support/within.ts';

const RATE = 48_000;

/** Parts in seconds with how loud a tone is in them. */
function tones(...parts: readonly (readonly [seconds: number, loud: number])[]): Float32Array {
  return Float32Array.from(
    parts.flatMap(([seconds, loud]) =>
      Array.from({ length: seconds * RATE }, (_, at) => loud * Math.sin((2 * Math.PI * 500 * at) / RATE)),
    ),
  );
}
const silences = (samples: Float32Array) => silencesIn(loudnessOf(samples, RATE));

test('a tone is as loud as its RMS says, the square root of a half of its peak', () => {
  const loudness = loudnessOf(tones([1, 0.5]), RATE);
  expect(loudness.length).toBe(1000 / LOUDNESS_STEP_MS);
  // 20 ms hold whole periods of 500 Hz.
  for (const value of loudness) within(value, 0.5 * Math.SQRT1_2, 1e-6);
});

test('a long pause is cut but for what belongs to the words on both sides; a short one stays', () => {
  expect(silences(tones([2, 0.4], [2, 0], [1, 0.4], [0.5, 0], [1, 0.4]))).toEqual([{ from: 2200, to: 3800 }]);
});

test('before the first word and after the last nothing has to stay on the outer side', () => {
  expect(silences(tones([1, 0.001], [2, 0.4], [3, 0.001]))).toEqual([
    { from: 0, to: 800 },
    { from: 3200, to: 6000 },
  ]);
});

test('faint room noise is silence beside speech, speech in a whisper is none', () => {
  expect(silences(tones([2, 0.4], [1, 0.005], [2, 0.4]))).toHaveLength(1);
  expect(silences(tones([2, 0.4], [1, 0.05], [2, 0.4]))).toEqual([]);
});

test('where nothing at all is heard there is nothing to tell silence from', () => {
  expect(silences(tones([5, 0]))).toEqual([]);
  expect(silences(new Float32Array(0))).toEqual([]);
});
