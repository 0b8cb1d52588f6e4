import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import encode, { init } from '@jsquash/jpeg/encode.js';
import type { Raster } from './raster.ts';

const LOWEST = 64;
/** Best first. Below the last one, skin and grass show blocks, so a smaller picture is better than a worse one. */
const QUALITIES = [93, 88, 82, 76, 70, LOWEST] as const;

/** Says for certain what readers of a JPEG only assume: APP1, Exif, one entry in its own folder, ColorSpace = 1 (sRGB). */
const SRGB_SEGMENT = Buffer.from(
  [
    'ffe1 0034', // APP1 of 52 bytes, counted from here on
    '457869660000', // "Exif"
    '4d4d 002a 00000008', // big-endian TIFF, first folder at 8
    '0001 8769 0004 00000001 0000001a 00000000', // one entry: the Exif folder is at 26; no folder follows
    '0001 a001 0003 00000001 00010000 00000000', // one entry: ColorSpace, one short, 1
  ]
    .join('')
    .replaceAll(' ', ''),
  'hex',
);

/** Bytes of the start marker and of the JFIF segment that the encoder writes first. */
const AFTER_JFIF = 20;

let ready: Promise<void> | null = null;

/**
 * Encodes as JPEG at the best quality that stays within `mostBytes`; when none does, at the lowest, which is then
 * larger. Colour is stored for every pixel (4:4:4): the canvas's own encoder halves it, which smears a thin orange
 * line on grass into brown.
 */
export async function encodeJpeg(raster: Raster, mostBytes: number): Promise<Uint8Array> {
  const best = await jpegOf(raster, QUALITIES[0]);
  if (best.length <= mostBytes) return best;
  let fitting: Uint8Array | null = null;
  let low = 1;
  let high = QUALITIES.length - 1;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    const bytes = await jpegOf(raster, QUALITIES[middle] ?? LOWEST);
    if (bytes.length <= mostBytes) {
      fitting = bytes;
      high = middle;
    } else low = middle + 1;
  }
  return fitting ?? (await jpegOf(raster, LOWEST));
}

async function jpegOf({ width, height, rgba }: Raster, quality: number): Promise<Uint8Array> {
  ready ??= loadEncoder();
  await ready;
  const data = new Uint8ClampedArray(rgba);
  const picture = { width, height, data, colorSpace: 'srgb' } as const;
  const file = Buffer.from(await encode(picture, { quality, auto_subsample: false, chroma_subsample: 1 }));
  return Buffer.concat([file.subarray(0, AFTER_JFIF), SRGB_SEGMENT, file.subarray(AFTER_JFIF)]);
}

/** The package would fetch its module as a web page does; here it is read from its folder. */
async function loadEncoder(): Promise<void> {
  const path = createRequire(import.meta.url).resolve('@jsquash/jpeg/codec/enc/mozjpeg_enc.wasm');
  const bytes = readFileSync(path);
  await init({ wasmBinary: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) });
}
