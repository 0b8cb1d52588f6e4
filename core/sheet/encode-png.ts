import { createCanvas, loadImage, type Canvas } from '@napi-rs/canvas';
import { LOOK_COLOURS, OUTLINE_COLOUR } from '../painting/looks.ts';
import { SHEET_COLOURS } from '../painting/paint-sheet.ts';
import { withExactColours } from './exact-colours.ts';
import { canvasOf } from './load-picture.ts';
import { palettePng } from './palette-png.ts';
import type { Raster } from './raster.ts';

export interface EncodedPng {
  readonly bytes: Uint8Array;
  /** Colours that the photographs were reduced to, or null when every pixel is stored as painted. */
  readonly colours: number | null;
}

const MOST_COLOURS = 256;

/** What is drawn and written; kept exactly when the colours of the photographs are reduced. */
const EXACT_COLOURS: ReadonlySet<number> = new Set(
  [...Object.values(LOOK_COLOURS), OUTLINE_COLOUR, ...Object.values(SHEET_COLOURS)].map((colour) =>
    Number.parseInt(colour.slice(1), 16),
  ),
);

/**
 * Encodes as PNG within `mostBytes`: without loss where that fits, else with the photographs reduced to a palette while
 * drawn lines and texts keep their exact colours. When even that does not fit, it is returned all the same, larger than
 * `mostBytes`. sRGB, said so in the file.
 */
export async function encodePng(raster: Raster, mostBytes: number): Promise<EncodedPng> {
  const canvas = canvasOf(raster);
  const lossless = await canvas.encode('png');
  if (lossless.length <= mostBytes) return { bytes: lossless, colours: null };
  const reduced = await reducedColours(canvas);
  const rgba = withExactColours(reduced, raster.rgba, EXACT_COLOURS);
  return { bytes: palettePng({ ...raster, rgba }), colours: MOST_COLOURS };
}

/** The canvas finds the best 256 colours when it writes a GIF (by NeuQuant), so one is written and read back. */
async function reducedColours(canvas: Canvas): Promise<Uint8Array> {
  const gif = await loadImage(await canvas.encode('gif', 1));
  const ctx = createCanvas(canvas.width, canvas.height).getContext('2d');
  ctx.drawImage(gif, 0, 0);
  return Uint8Array.from(ctx.getImageData(0, 0, canvas.width, canvas.height).data);
}
