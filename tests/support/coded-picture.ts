/** Pictures that carry their own number, so that a test reads which frame came back instead of believing it. */
export const CODED_WIDTH = 192;
export const CODED_HEIGHT = 128;
const BITS = 12;
/** Middles of the row of bits and of the row with each bit turned round, in shares of the height. */
const ROW = 24 / CODED_HEIGHT;
const INVERSE_ROW = 56 / CODED_HEIGHT;

/** A grey picture, one byte a pixel, with `number` (0..4095) as black and white fields over moving clutter. */
export function codedPicture(number: number): Uint8Array {
  const picture = new Uint8Array(CODED_WIDTH * CODED_HEIGHT);
  for (let y = 0; y < CODED_HEIGHT; y += 1)
    for (let x = 0; x < CODED_WIDTH; x += 1) picture[y * CODED_WIDTH + x] = greyAt(number, x, y);
  return picture;
}

function greyAt(number: number, x: number, y: number): number {
  const bit = (number >> Math.floor(x / (CODED_WIDTH / BITS))) & 1;
  if (y >= 16 && y < 32) return bit === 1 ? 235 : 20;
  if (y >= 48 && y < 64) return bit === 1 ? 20 : 235;
  // A bar that wanders and a pattern that slides under it: something for motion prediction to get wrong.
  if (Math.abs(((x - number * 5) % CODED_WIDTH) + (x < number * 5 ? CODED_WIDTH : 0) - 20) < 12) return 200;
  return 60 + ((x * 3 + y * 5 + number * 7) % 64);
}

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  /** Bytes a pixel: 1 for grey, 4 for R, G, B, A. */
  readonly step: 1 | 4;
}

/** The number that a picture carries, at any size; throws when its fields contradict one another. */
export function readCode(pixels: Pixels): number {
  let number = 0;
  for (let bit = 0; bit < BITS; bit += 1) {
    const across = (bit + 0.5) / BITS;
    const [light, dark] = [greyOf(pixels, across, ROW), greyOf(pixels, across, INVERSE_ROW)];
    if (Math.abs(light - dark) < 80) throw new Error(`bit ${bit} is unreadable: ${light} against ${dark}`);
    if (light > dark) number |= 1 << bit;
  }
  return number;
}

/** Mean of 3 x 3 pixels about a place given in shares of width and height. */
function greyOf({ width, height, data, step }: Pixels, across: number, down: number): number {
  let sum = 0;
  for (let dy = -1; dy <= 1; dy += 1)
    for (let dx = -1; dx <= 1; dx += 1) {
      const [x, y] = [Math.floor(across * width) + dx, Math.floor(down * height) + dy];
      sum += data[(y * width + x) * step + (step === 4 ? 1 : 0)] ?? 0;
    }
  return sum / 9;
}
