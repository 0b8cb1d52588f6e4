import { expect, test } from 'vitest';
import { soundOnsets } from '../../../core/propose/sound-onsets.ts';

/** Bins of 5 ms from 2 s on; a hum, and what is heard over it. */
function envelope(hum: number, heard: Readonly<Record<number, number>>) {
  const peaks = new Uint8Array(2000).fill(hum);
  for (const [bin, loudness] of Object.entries(heard)) peaks[Number(bin)] = loudness;
  return { from: 2, step: 0.005, peaks };
}

test('an onset is what is sudden, at its loudest bin', () => {
  expect(soundOnsets(envelope(3, { 400: 120, 401: 255, 402: 90, 403: 30, 1000: 200 }))).toEqual([
    { seconds: 2 + 401 * 0.005, loudness: 255 },
    { seconds: 7, loudness: 200 },
  ]);
});

test('an echo within 0.15 s belongs to it, a hum is none, nor what is soft or grows slowly', () => {
  expect(soundOnsets(envelope(3, { 400: 255, 412: 100, 900: 20 }))).toHaveLength(1);
  expect(soundOnsets(envelope(80, { 400: 255 }))).toEqual([]);
  expect(soundOnsets({ from: 0, step: 0.005, peaks: Uint8Array.from({ length: 255 }, (_, bin) => bin) })).toEqual([]);
  expect(soundOnsets({ from: 0, step: 0.005, peaks: new Uint8Array(0) })).toEqual([]);
});
