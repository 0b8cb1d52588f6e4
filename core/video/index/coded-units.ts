/**
 * First bytes of the units of a coded picture, each of which follows its length (ISO/IEC 14496-15, 5.3.3.1); `lengthBytes`: how
 * many bytes a length has. Ends where a unit does not begin within what is given.
 */
export function* unitHeads(picture: Uint8Array, lengthBytes: number): Generator<number> {
  for (let at = 0; at + lengthBytes < picture.length;) {
    const length = picture.subarray(at, at + lengthBytes).reduce((sum, byte) => sum * 256 + byte, 0);
    yield picture[at + lengthBytes] ?? 0;
    at += lengthBytes + length;
  }
}
