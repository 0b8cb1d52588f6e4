import { expect, test } from 'vitest';
import { loupeCorner } from '../../../renderer/canvas/loupe-corner.ts';

const STAGE = { width: 780, height: 470 };

test('the enlarged view lies in the lower right corner, and in the left one while the hand is near that', () => {
  expect(loupeCorner(STAGE, [])).toBe('right');
  expect(loupeCorner(STAGE, [{ left: 300, top: 200 }])).toBe('right');
  expect(loupeCorner(STAGE, [{ left: 700, top: 400 }])).toBe('left');
  // 40 px beside it is far enough, one less is not.
  expect(loupeCorner(STAGE, [{ left: 780 - 8 - 137 - 40, top: 400 }])).toBe('right');
  expect(loupeCorner(STAGE, [{ left: 780 - 8 - 137 - 39, top: 400 }])).toBe('left');
});

test('it leaves free what is looked for; where both corners are near something, the pointer counts most', () => {
  const [left, right, middle] = [
    { left: 60, top: 420 },
    { left: 720, top: 420 },
    { left: 400, top: 100 },
  ];
  expect(loupeCorner(STAGE, [middle, right])).toBe('left');
  expect(loupeCorner(STAGE, [left, right])).toBe('right');
  expect(loupeCorner(STAGE, [right, left])).toBe('left');
});

test('on a stage too narrow for both corners it is never under the pointer where it can be helped', () => {
  const narrow = { width: 320, height: 400 };
  expect(loupeCorner(narrow, [{ left: 280, top: 350 }])).toBe('left');
  expect(loupeCorner(narrow, [{ left: 30, top: 350 }])).toBe('right');
});
