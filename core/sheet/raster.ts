/** A painted still: 8-bit RGBA rows from the top, opaque, sRGB. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}
