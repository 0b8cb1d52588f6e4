import { describe, expect, it } from 'vitest';
import { joinMatrices, orientationOf, quarterTurn } from '../../../core/time/display-matrix.ts';
import { squarePixelSize, turnedSize } from '../../../core/time/display-size.ts';

describe('the orientation of a display matrix', () => {
  // x' = a x + c y, y' = b x + d y with y down: (0 1; -1 0) sends the right edge down, a quarter clockwise.
  it.each([
    ['upright', [1, 0, 0, 1], 0, false],
    ['a quarter clockwise', [0, 1, -1, 0], 90, false],
    ['half', [-1, 0, 0, -1], 180, false],
    ['a quarter anticlockwise', [0, -1, 1, 0], 270, false],
    ['left to right', [-1, 0, 0, 1], 0, true],
    ['top to bottom', [1, 0, 0, -1], 180, true],
    ['over the falling diagonal', [0, 1, 1, 0], 270, true],
    ['over the rising diagonal', [0, -1, -1, 0], 90, true],
  ] as const)('%s', (_, [a, b, c, d], turn, mirrored) => {
    expect(orientationOf({ a, b, c, d })).toEqual({ turn, mirrored });
  });

  it('undoes itself: mirror, then turn, gives the matrix back', () => {
    const turns = { 0: [1, 0, 0, 1], 90: [0, 1, -1, 0], 180: [-1, 0, 0, -1], 270: [0, -1, 1, 0] } as const;
    for (const turn of [0, 90, 180, 270] as const)
      for (const mirrored of [false, true]) {
        const [a, b, c, d] = turns[turn];
        const mirror = { a: mirrored ? -1 : 1, b: 0, c: 0, d: 1 };
        expect(orientationOf(joinMatrices(mirror, { a, b, c, d }))).toEqual({ turn, mirrored });
      }
  });

  it('does not depend on scale, and is upright when the picture is flattened', () => {
    expect(orientationOf({ a: 0, b: 3.5, c: -3.5, d: 0 })).toEqual({ turn: 90, mirrored: false });
    expect(orientationOf({ a: 0, b: 0, c: 0, d: 0 })).toEqual({ turn: 0, mirrored: false });
    expect(orientationOf({ a: Number.NaN, b: 0, c: 0, d: 1 })).toEqual({ turn: 0, mirrored: false });
  });
});

it('takes angles to the nearest quarter', () => {
  expect([-90, -180, 359, 44, 46, 450, -0.1].map(quarterTurn)).toEqual([270, 180, 0, 0, 90, 90, 0]);
});

it('makes pixels square without losing one', () => {
  const stored = { width: 720, height: 576 };
  expect(squarePixelSize(stored, { num: 1, den: 1 })).toEqual(stored);
  expect(squarePixelSize(stored, { num: 2, den: 1 })).toEqual({ width: 1440, height: 576 });
  expect(squarePixelSize(stored, { num: 8, den: 9 })).toEqual({ width: 720, height: 648 });
});

it('changes width and height on a quarter turn only', () => {
  const size = { width: 3, height: 2 };
  expect([0, 90, 180, 270].map((turn) => turnedSize(size, quarterTurn(turn)).width)).toEqual([3, 2, 3, 2]);
});
