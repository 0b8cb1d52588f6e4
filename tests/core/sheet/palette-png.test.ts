import { PNG } from 'pngjs';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { withExactColours } from '../../../core/sheet/exact-colours.ts';
import { palettePng } from '../../../core/sheet/palette-png.ts';
import { seeded } from '../../support/seeded.ts';

/** A row of pixels from 0xRRGGBB numbers. */
function pixelsOf(colours: readonly number[]): Uint8Array {
  return Uint8Array.from(colours.flatMap((colour) => [colour >> 16, (colour >> 8) & 255, colour & 255, 255]));
}

test('two independent readers read back every pixel, for 1, 2 and 256 colours and odd sizes', async () => {
  for (const [width, height, count] of [
    [1, 1, 1],
    [7, 3, 2],
    [61, 37, 256],
  ] as const) {
    const random = seeded(count);
    const rgba = pixelsOf(Array.from({ length: width * height }, () => Math.floor(random() * count) * 65793));
    const file = Buffer.from(palettePng({ width, height, rgba }));
    expect(new Uint8Array(PNG.sync.read(file).data)).toEqual(rgba);
    expect(new Uint8Array(await sharp(file).ensureAlpha().raw().toBuffer())).toEqual(rgba);
  }
});

test('more than 256 colours are refused', () => {
  const rgba = pixelsOf(Array.from({ length: 257 }, (_, i) => i));
  expect(() => palettePng({ width: 257, height: 1, rgba })).toThrow(/at most 256 colours/);
});

test('an exact colour is put back where it was painted, and nowhere else', () => {
  const painted = pixelsOf([0xe69f00, 0x111111, 0x222222]);
  const reduced = pixelsOf([0xe0a010, 0x101010, 0xe0a010]);
  expect(withExactColours(reduced, painted, new Set([0xe69f00]))).toEqual(pixelsOf([0xe69f00, 0x101010, 0xe0a010]));
});

test('of too many colours the least used becomes its nearest neighbour', () => {
  // 256 greys twice each, one more colour once, and one exact colour: 258 in all, so the two least used give way.
  const greys = Array.from({ length: 256 }, (_, i) => i * 65793);
  const reduced = pixelsOf([...greys, ...greys, 0x000005, 0x808080]);
  const painted = pixelsOf([...greys, ...greys, 0x000005, 0xe69f00]);
  const result = withExactColours(reduced, painted, new Set([0xe69f00]));
  const colours = new Set(Array.from({ length: 514 }, (_, i) => result.subarray(i * 4, i * 4 + 3).join()));
  expect(colours.size).toBe(256);
  expect(result.subarray(513 * 4)).toEqual(pixelsOf([0xe69f00]));
  expect([...result.subarray(512 * 4, 512 * 4 + 3)].every((level) => level <= 5)).toBe(true);
});
