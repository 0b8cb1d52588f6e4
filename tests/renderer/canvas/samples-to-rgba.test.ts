import { describe, expect, it, test } from 'vitest';
import type { PictureLayout } from '../../../core/model/picture-layout.ts';
import { samplesToRgba } from '../../../renderer/canvas/samples-to-rgba.ts';
import { within } from '../../support/within.ts';

type Kind = Pick<PictureLayout, 'matrix' | 'fullRange'>;
const layoutOf = (kind: Kind, width: number, height: number): PictureLayout => ({
  ...{ kind: 'i420', width, height },
  ...kind,
});

/** One pixel of one colour. */
function colour(kind: Kind, samples: readonly [number, number, number]): number[] {
  return [...samplesToRgba(layoutOf(kind, 1, 1), Uint8Array.from(samples))];
}

/**
 * Colour bars of full saturation in 8 bits: ITU-R BT.601-7 and BT.709-6, the quantised levels that every colour-bar
 * generator gives. The samples are rounded, which is worth up to 2 in blue.
 */
type Bar = readonly [name: string, samples: readonly [number, number, number], wanted: readonly number[]];
const BARS: Readonly<Record<PictureLayout['matrix'], readonly Bar[]>> = {
  bt709: [
    ['white', [235, 128, 128], [255, 255, 255]],
    ['yellow', [219, 16, 138], [255, 255, 0]],
    ['cyan', [188, 154, 16], [0, 255, 255]],
    ['green', [173, 42, 26], [0, 255, 0]],
    ['magenta', [78, 214, 230], [255, 0, 255]],
    ['red', [63, 102, 240], [255, 0, 0]],
    ['blue', [32, 240, 118], [0, 0, 255]],
    ['black', [16, 128, 128], [0, 0, 0]],
  ],
  bt601: [
    ['white', [235, 128, 128], [255, 255, 255]],
    ['yellow', [210, 16, 146], [255, 255, 0]],
    ['cyan', [170, 166, 16], [0, 255, 255]],
    ['green', [145, 54, 34], [0, 255, 0]],
    ['magenta', [106, 202, 222], [255, 0, 255]],
    ['red', [81, 90, 240], [255, 0, 0]],
    ['blue', [41, 240, 110], [0, 0, 255]],
    ['black', [16, 128, 128], [0, 0, 0]],
  ],
};

describe.each(['bt709', 'bt601'] as const)('%s, limited range', (matrix) => {
  it.each<Bar>(BARS[matrix])('shows a bar of %s as it is', (_name, samples, wanted) => {
    const [red = 0, green = 0, blue = 0, opaque] = colour({ matrix, fullRange: false }, samples);
    for (const [at, value] of [red, green, blue].entries()) within(value, wanted[at] ?? 0, 2);
    expect(opaque).toBe(255);
  });
});

test('each pair of chroma samples counts for its 2 x 2 pixels, also where the size is odd', () => {
  const kind = { matrix: 'bt709', fullRange: true } as const;
  const [width, height] = [5, 3];
  const luma = Array.from({ length: width * height }, (_, place) => 60 + 9 * place);
  const cb = [100, 110, 120, 130, 140, 150];
  const cr = [150, 140, 130, 120, 110, 100];
  const whole = samplesToRgba(layoutOf(kind, width, height), Uint8Array.from([...luma, ...cb, ...cr]));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const [place, chroma] = [y * width + x, (y >> 1) * 3 + (x >> 1)];
      const alone = colour(kind, [luma[place] ?? 0, cb[chroma] ?? 0, cr[chroma] ?? 0]);
      expect([...whole.slice(4 * place, 4 * place + 4)]).toEqual(alone);
    }
});

test('too few samples are refused, not filled up', () => {
  const layout = layoutOf({ matrix: 'bt601', fullRange: false }, 4, 4);
  expect(() => samplesToRgba(layout, new Uint8Array(23))).toThrow(RangeError);
  expect(samplesToRgba(layout, new Uint8Array(24))).toHaveLength(64);
});

test('in full range greys are their own samples', () => {
  for (const matrix of ['bt709', 'bt601'] as const)
    for (let grey = 0; grey < 256; grey += 1)
      expect(colour({ matrix, fullRange: true }, [grey, 128, 128])).toEqual([grey, grey, grey, 255]);
});

test('colours outside of what a screen shows stay at its edge and do not wrap round', () => {
  const kind = { matrix: 'bt709', fullRange: false } as const;
  expect(colour(kind, [255, 255, 255])).toEqual([255, 184, 255, 255]);
  expect(colour(kind, [0, 0, 0])).toEqual([0, 77, 0, 255]);
});
