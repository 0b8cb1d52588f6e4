import type { PictureLayout } from '../../core/model/picture-layout.ts';

/** Shares of red and blue in the luma (ITU-R BT.601-7, 2.5.1; BT.709-6, 3.2). Green has the rest. */
const LUMA_SHARES = { bt601: { red: 0.299, blue: 0.114 }, bt709: { red: 0.2126, blue: 0.0722 } } as const;

/** Fixed-point fraction bits: products of 8-bit samples stay well inside 32 bits. */
const BITS = 16;
const ONE = 1 << BITS;
/** A table each: what a sample adds to each colour, fixed-point. */
interface Tables {
  readonly luma: Int32Array;
  readonly redByCr: Int32Array;
  readonly greenByCb: Int32Array;
  readonly greenByCr: Int32Array;
  readonly blueByCb: Int32Array;
}

const prepared = new Map<string, Tables>();

/**
 * A clip's own samples (`i420`: planes Y, U, V) as R, G, B, A, row by row, by the matrix and range that the layout names.
 * Each pair of chroma samples counts for its 2 x 2 pixels, as in a still. Within 1 of the exact formula. Own code, since
 * Chromium's conversion by software caps the factor for blue, which is 2.11 in BT.709, below 2: blue then is 12 off.
 *
 * @throws RangeError when there are fewer samples than the layout's size asks for.
 */
export function samplesToRgba(layout: PictureLayout, data: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const { width, height } = layout;
  const chromaWidth = (width + 1) >> 1;
  const [cbPlane, crPlane] = [width * height, width * height + chromaWidth * ((height + 1) >> 1)];
  const wanted = crPlane + chromaWidth * ((height + 1) >> 1);
  if (data.length < wanted) throw new RangeError(`${data.length} samples of a picture of ${wanted}`);

  const { luma, redByCr, greenByCb, greenByCr, blueByCb } = tablesOf(layout);
  // Clamps what is put into it.
  const pixels = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y += 1) {
    const row = y * width;
    const chromaRow = (y >> 1) * chromaWidth;
    for (let pair = 0; pair < chromaWidth; pair += 1) {
      const cb = data[cbPlane + chromaRow + pair] ?? 0;
      const cr = data[crPlane + chromaRow + pair] ?? 0;
      const red = redByCr[cr] ?? 0;
      const green = (greenByCb[cb] ?? 0) + (greenByCr[cr] ?? 0);
      const blue = blueByCb[cb] ?? 0;
      const x = row + 2 * pair;
      put(pixels, 4 * x, luma[data[x] ?? 0] ?? 0, red, green, blue);
      if (2 * pair + 1 < width) put(pixels, 4 * x + 4, luma[data[x + 1] ?? 0] ?? 0, red, green, blue);
    }
  }
  return pixels;
}

function put(pixels: Uint8ClampedArray, place: number, grey: number, red: number, green: number, blue: number): void {
  pixels[place] = (grey + red) >> BITS;
  pixels[place + 1] = (grey + green) >> BITS;
  pixels[place + 2] = (grey + blue) >> BITS;
  pixels[place + 3] = 255;
}

function tablesOf({ matrix, fullRange }: PictureLayout): Tables {
  const name = `${matrix} ${fullRange ? 'full' : 'limited'}`;
  const known = prepared.get(name);
  if (known !== undefined) return known;
  const { red, blue } = LUMA_SHARES[matrix];
  const green = 1 - red - blue;
  const [black, lumaScale, chromaScale] = fullRange ? [0, 1, 1] : [16, 255 / 219, 255 / 224];
  const table = (of: (sample: number) => number): Int32Array =>
    Int32Array.from({ length: 256 }, (_, sample) => Math.round(of(sample) * ONE));
  const chroma = (factor: number): Int32Array => table((sample) => (sample - 128) * chromaScale * factor);
  const tables: Tables = {
    // The half rounds what is cut off after the sum.
    luma: table((sample) => (sample - black) * lumaScale + 0.5),
    redByCr: chroma(2 * (1 - red)),
    greenByCb: chroma((-2 * blue * (1 - blue)) / green),
    greenByCr: chroma((-2 * red * (1 - red)) / green),
    blueByCb: chroma(2 * (1 - blue)),
  };
  prepared.set(name, tables);
  return tables;
}
