import { expect, test } from 'vitest';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { frameInWords, leftOutInWords, picturesInWords, shortRateInWords } from '../../../renderer/shell/words.ts';
import { clipIndexOf } from '../../support/clip-index.ts';

const index = clipIndexOf([0, 1, 2, 3, 4, 5, 6, 7, 8], 30);
const damaged: ClipIndex = { ...index, damage: [{ from: 3, to: 5 }] };

test('a frame says where it is, and that it is damaged when it is', () => {
  const unknown = { ...index, captureRate: null };
  expect(frameInWords(unknown, index, 3)).toBe('frame 3 of 8, 0.100 s on screen');
  expect(frameInWords(unknown, damaged, 3)).toBe('frame 3 of 8, 0.100 s on screen, damaged');
  expect(frameInWords(unknown, damaged, 6)).toBe('frame 6 of 8, 0.200 s on screen');
});

test("a frame's time is that of the swing, as its readings are, once the coach has said how fast it was filmed", () => {
  const slowed = {
    ...index,
    nominalRate: { num: 30, den: 1 },
    captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: true },
  };
  // Plays at 30 a second and was filmed at 240: frame 8 is 8/240 s after frame 0.
  expect(frameInWords(slowed, index, 8)).toBe('frame 8 of 8, 0.033 s real time');
});

test('a clip says what is out of the ordinary about its pictures, else nothing', () => {
  expect(picturesInWords(index)).toBe('');
  expect(picturesInWords(damaged)).toBe('3 damaged frames.');
  expect(picturesInWords({ ...index, damage: [{ from: 3, to: 3 }] })).toBe('1 damaged frame.');
  expect(picturesInWords({ ...index, dynamicRange: 'hlg' })).toBe('HDR (HLG), shown in standard range.');
  expect(picturesInWords({ ...damaged, dynamicRange: 'pq' })).toBe(
    '3 damaged frames. HDR (PQ), shown in standard range.',
  );
});

test('what a file holds beside its frames is said; what it hides on purpose only among the facts of the clip', () => {
  const leftOut = { doubled: 1200, hidden: 9, timeless: 1 };
  const lost =
    '1,200 pictures are left out: the file gives each the time of another one. ' +
    '1 picture is left out: the file gives it no time.';
  expect(leftOutInWords(leftOut)).toBe(`${lost} 9 pictures are hidden: the file says not to show them.`);
  expect(picturesInWords({ ...index, leftOut })).toBe(lost);
  expect(leftOutInWords({ doubled: 0, hidden: 0, timeless: 0 })).toBe('');
  expect(leftOutInWords(null)).toBe('');
});

test('a capture rate that only the file says carries a question mark where there is little room', () => {
  const framesPerSecond = { num: 30000, den: 1001 };
  expect(shortRateInWords({ framesPerSecond, confirmed: true })).toBe('29.97 fps');
  expect(shortRateInWords({ framesPerSecond, confirmed: false })).toBe('29.97 fps?');
  expect(shortRateInWords(null)).toBe('Real rate?');
});
