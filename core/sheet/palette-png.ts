import { crc32, deflateSync } from 'node:zlib';
import type { Raster } from './raster.ts';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const MOST_COLOURS = 256;

/**
 * Writes a picture of at most 256 colours as an indexed PNG (W3C PNG, colour type 3, 8 bits), every colour exactly as it
 * is. Encoders at hand choose the palette themselves and would shift the colours of drawn lines.
 * @throws Error with more than 256 colours.
 */
export function palettePng({ width, height, rgba }: Raster): Uint8Array {
  const places = new Map<number, number>();
  const rows = new Uint8Array((width + 1) * height);
  for (let y = 0; y < height; y++) {
    // The first byte of each row names its filter: 0, none, which suits indexes.
    for (let x = 0; x < width; x++) {
      const from = (y * width + x) * 4;
      const colour = ((rgba[from] ?? 0) << 16) | ((rgba[from + 1] ?? 0) << 8) | (rgba[from + 2] ?? 0);
      let place = places.get(colour);
      if (place === undefined) {
        place = places.size;
        if (place === MOST_COLOURS) throw new Error(`picture must have at most ${MOST_COLOURS} colours`);
        places.set(colour, place);
      }
      rows[y * (width + 1) + 1 + x] = place;
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const palette = Buffer.from(
    [...places.keys()].flatMap((colour) => [colour >> 16, (colour >> 8) & 255, colour & 255]),
  );
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('sRGB', Buffer.from([0])),
    chunk('PLTE', palette),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(data.length, 0);
  whole.set(body, 4);
  whole.writeUInt32BE(crc32(body), body.length + 4);
  return whole;
}
