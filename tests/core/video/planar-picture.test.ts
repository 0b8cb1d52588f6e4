import { expect, test } from 'vitest';
import { planarBytes, toPlanar } from '../../../core/video/film/planar-picture.ts';
import { seeded } from '../../support/seeded.ts';
import { within } from '../../support/within.ts';

const [WIDTH, HEIGHT] = [8, 4];

/** A picture of one colour, as luma and chroma of its first pixel. */
function planarOf(red: number, green: number, blue: number): readonly number[] {
  const rgba = Uint8Array.from({ length: WIDTH * HEIGHT * 4 }, (_, at) => [red, green, blue, 255][at % 4] ?? 0);
  const planar = new Uint8Array(planarBytes(WIDTH, HEIGHT));
  toPlanar(rgba, WIDTH, HEIGHT, planar);
  return [planar[0] ?? 0, planar[WIDTH * HEIGHT] ?? 0, planar[(WIDTH * HEIGHT * 5) / 4] ?? 0];
}

test('the colours of a colour bar have the numbers of BT.709 with 8 bits', () => {
  // ITU-R BT.709 colour bars at 100 %, as in SMPTE RP 219: Y', CB, CR.
  const bars: readonly (readonly [readonly [number, number, number], readonly [number, number, number]])[] = [
    [
      [255, 255, 255],
      [235, 128, 128],
    ],
    [
      [255, 255, 0],
      [219, 16, 138],
    ],
    [
      [0, 255, 255],
      [188, 154, 16],
    ],
    [
      [0, 255, 0],
      [173, 42, 26],
    ],
    [
      [255, 0, 255],
      [78, 214, 230],
    ],
    [
      [255, 0, 0],
      [63, 102, 240],
    ],
    [
      [0, 0, 255],
      [32, 240, 118],
    ],
    [
      [0, 0, 0],
      [16, 128, 128],
    ],
  ];
  for (const [colour, numbers] of bars) expect(planarOf(...colour)).toEqual(numbers);
});

test('every pixel has its own luma, and four of them the mean of their chroma; no colour leaves its range', () => {
  const random = seeded(5);
  const rgba = Uint8Array.from({ length: WIDTH * HEIGHT * 4 }, (_, at) => (at % 4 === 3 ? 255 : random() * 256));
  const planar = new Uint8Array(planarBytes(WIDTH, HEIGHT));
  toPlanar(rgba, WIDTH, HEIGHT, planar);
  const pixel = (x: number, y: number) => [...rgba.subarray((y * WIDTH + x) * 4, (y * WIDTH + x) * 4 + 3)];
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const [red = 0, green = 0, blue = 0] = pixel(x, y);
      const luma = 16 + (219 / 255) * (0.2126 * red + 0.7152 * green + 0.0722 * blue);
      within(planar[y * WIDTH + x] ?? 0, luma, 0.51, 'luma, rounded');
    }
  const four = [pixel(2, 2), pixel(3, 2), pixel(2, 3), pixel(3, 3)];
  const mean = (part: number): number => four.reduce((sum, each) => sum + (each[part] ?? 0), 0) / 4;
  const luma = 0.2126 * mean(0) + 0.7152 * mean(1) + 0.0722 * mean(2);
  const at = WIDTH * HEIGHT + WIDTH / 2 + 1;
  within(planar[at] ?? 0, 128 + (224 / 255) * ((mean(2) - luma) / 1.8556), 0.51, 'blue less luma');
  within(
    planar[at + (WIDTH * HEIGHT) / 4] ?? 0,
    128 + (224 / 255) * ((mean(0) - luma) / 1.5748),
    0.51,
    'red less luma',
  );
});
