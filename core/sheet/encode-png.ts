import sharp from 'sharp';
import { LOOK_COLOURS, OUTLINE_COLOUR } from '../painting/looks.ts';
import { SHEET_COLOURS } from '../painting/paint-sheet.ts';
import { withExactColours } from './exact-colours.ts';
import { palettePng } from './palette-png.ts';
import type { Raster } from './raster.ts';

export interface EncodedPng {
  readonly bytes: Uint8Array;
  /** Colours that the photographs were reduced to, or null when every pixel is stored as painted. */
  readonly colours: number | null;
}

/** Best first. The number of colours is a power of two, else the encoder rounds it up to one. */
const REDUCTIONS = [
  { colours: 256, dither: 0.5 },
  { colours: 256, dither: 0 },
  { colours: 128, dither: 0 },
] as const;

/** What is drawn and written; kept exactly when the colours of the photographs are reduced. */
const EXACT_COLOURS: ReadonlySet<number> = new Set(
  [...Object.values(LOOK_COLOURS), OUTLINE_COLOUR, ...Object.values(SHEET_COLOURS)].map((colour) =>
    Number.parseInt(colour.slice(1), 16),
  ),
);

/**
 * Encodes as PNG within `mostBytes`: without loss where that fits, else with the photographs reduced to a palette while
 * drawn lines and texts keep their exact colours. When even that does not fit, the smallest is returned, which is then
 * larger than `mostBytes`. sRGB, said so in the file.
 */
export async function encodePng(raster: Raster, mostBytes: number): Promise<EncodedPng> {
  const { width, height, rgba } = raster;
  const raw = { raw: { width, height, channels: 4 } } as const;
  const lossless = await sharp(rgba, raw)
    .removeAlpha()
    .withIccProfile('srgb')
    .png({ compressionLevel: 9, adaptiveFiltering: true })
    .toBuffer();
  let smallest: EncodedPng = { bytes: lossless, colours: null };
  for (const { colours, dither } of REDUCTIONS) {
    if (smallest.bytes.length <= mostBytes) break;
    const reduced = await sharp(rgba, raw).removeAlpha().png({ palette: true, colours, dither, effort: 5 }).toBuffer();
    const pixels = await sharp(reduced).ensureAlpha().raw().toBuffer();
    const bytes = palettePng({ width, height, rgba: withExactColours(pixels, rgba, EXACT_COLOURS) });
    smallest = { bytes, colours };
  }
  return smallest;
}
