import { readFileSync, writeFileSync } from 'node:fs';

/** Overwrites the matrix of the first track (ISO/IEC 14496-12, 8.3.2: 40 bytes into the content of tkhd). */
export function writeMatrix(path: string, [a, b, c, d]: readonly [number, number, number, number]): void {
  const bytes = readFileSync(path);
  const at = bytes.indexOf('tkhd') + 4 + 40;
  for (const [place, value] of [a, b, 0, c, d, 0].entries()) bytes.writeInt32BE(value * 65536, at + place * 4);
  writeFileSync(path, bytes);
}
