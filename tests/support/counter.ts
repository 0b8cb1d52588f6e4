import type { Pixels } from './coded-picture.ts';

/** Where the six digits of bipbop.mp4's frame counter stand, in pixels of its 400 x 300 picture. */
const [LEFT, TOP, DIGIT_WIDTH, DIGIT_HEIGHT] = [31, 127, 17.8, 24];
const DIGITS = 6;

/**
 * Reads the counter. `glyphs` are the frames that show 0 to 9 in the last place, from which the shapes of the digits are
 * taken.
 */
export function readCounter(picture: Pixels, glyphs: readonly Pixels[]): number {
  let number = 0;
  for (let place = 0; place < DIGITS; place += 1) {
    // Digits do not stand on whole pixels: a shape may lie one to the side of where it was taken from.
    const cells = [-1, 0, 1].map((shift) => cellOf(picture, place, shift));
    const off = glyphs.map((glyph) => {
      const shape = cellOf(glyph, DIGITS - 1, 0);
      return Math.min(...cells.map((cell) => difference(cell, shape)));
    });
    number = number * 10 + off.indexOf(Math.min(...off));
  }
  return number;
}

function cellOf({ width, data, step }: Pixels, place: number, shift: number): number[] {
  const left = Math.round(LEFT + place * DIGIT_WIDTH) + shift;
  const cell: number[] = [];
  for (let y = TOP; y < TOP + DIGIT_HEIGHT; y += 1)
    for (let x = left; x < left + Math.floor(DIGIT_WIDTH); x += 1) cell.push(data[(y * width + x) * step] ?? 0);
  return cell;
}

function difference(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, at) => sum + Math.abs(value - (b[at] ?? 0)), 0);
}
