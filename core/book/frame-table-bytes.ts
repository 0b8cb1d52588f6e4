import type { ShownFrame } from '../time/clip-index.ts';

/**
 * How the frames of a clip lie in the book: 17 bytes a frame, in presentation order, so that frame i can be cut out
 * without reading the rest. Little-endian: time stamp (8-byte float, exact for whole numbers below 2^53), ticks on
 * screen (8-byte float), 1 when decoding may start here, else 0 (1 byte).
 */
export const BYTES_PER_FRAME = 17;

export function bytesOfFrames(frames: readonly ShownFrame[]): Uint8Array {
  const bytes = new Uint8Array(frames.length * BYTES_PER_FRAME);
  const cells = new DataView(bytes.buffer);
  frames.forEach((frame, index) => {
    const at = index * BYTES_PER_FRAME;
    cells.setFloat64(at, frame.pts, true);
    cells.setFloat64(at + 8, frame.ticks, true);
    cells.setUint8(at + 16, frame.key ? 1 : 0);
  });
  return bytes;
}

/** The inverse. Returns null when the length is no multiple of a frame: then it is no frame table. */
export function framesOfBytes(bytes: Uint8Array): ShownFrame[] | null {
  if (bytes.length % BYTES_PER_FRAME !== 0) return null;
  const cells = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  return Array.from({ length: bytes.length / BYTES_PER_FRAME }, (_, index) => {
    const at = index * BYTES_PER_FRAME;
    return {
      pts: cells.getFloat64(at, true),
      ticks: cells.getFloat64(at + 8, true),
      key: cells.getUint8(at + 16) === 1,
    };
  });
}
