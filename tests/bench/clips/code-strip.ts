/**
 * Every picture of a bench clip carries its number as black and white cells: a row of bits, the lowest first, and under it
 * the same row with each bit turned round, so that a picture that was mixed of two contradicts itself. The cells are as
 * large as a thirtieth of the picture's width: enough to be read on the bench of a small window, where a 1080-line
 * picture is shown at 0.3 of its size.
 */
export const BITS = 14;
export const ROWS_OF_CELLS = 2;
const CELLS_ACROSS_PICTURE = 30;
const WHITE = 235;
const BLACK = 20;
/** Least difference of grey between a bit and its opposite: half of what was painted, less some for the encoders. */
export const LEAST_CONTRAST = 80;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A rectangle in stored pixels. */
export interface StripPlace extends Size {
  readonly left: number;
  readonly top: number;
  /** Side of a cell, in pixels, even. */
  readonly cell: number;
}

export function stripPlace(picture: Size): StripPlace {
  const cell = picture.width / CELLS_ACROSS_PICTURE;
  if (!Number.isInteger(cell / 2)) throw new Error(`width must be a multiple of 60, not ${picture.width}`);
  return { left: cell, top: cell, width: BITS * cell, height: ROWS_OF_CELLS * cell, cell };
}

/** The strip as a tiny grey picture, one byte a cell. `number` from 0 to 16383. */
export function stripBytes(number: number): Uint8Array {
  if (!(Number.isInteger(number) && number >= 0 && number < 2 ** BITS)) throw new Error(`no code for ${number}`);
  const bits = Array.from({ length: BITS }, (_, bit) => ((number >> bit) & 1) === 1);
  return Uint8Array.from([...bits, ...bits.map((on) => !on)], (on) => (on ? WHITE : BLACK));
}

/** The number in the greys (0 to 255) of the cells, row after row; null when the cells contradict one another. */
export function readStrip(greys: ArrayLike<number>): number | null {
  let number = 0;
  for (let bit = 0; bit < BITS; bit += 1) {
    const difference = (greys[bit] ?? 0) - (greys[BITS + bit] ?? 0);
    if (Math.abs(difference) < LEAST_CONTRAST) return null;
    if (difference > 0) number |= 1 << bit;
  }
  return number;
}

/** A place in the upright picture, in its pixels. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Middles of the cells in the upright picture, row after row. `turn`: quarter turns clockwise from stored to upright. */
export function cellMiddles(stored: Size, turn: 0 | 90): readonly Place[] {
  const strip = stripPlace(stored);
  return Array.from({ length: ROWS_OF_CELLS * BITS }, (_, place) => {
    const x = strip.left + ((place % BITS) + 0.5) * strip.cell;
    const y = strip.top + (Math.floor(place / BITS) + 0.5) * strip.cell;
    return turn === 0 ? { x, y } : { x: stored.height - y, y: x };
  });
}
