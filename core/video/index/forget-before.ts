import type { FileHandle } from 'node:fs/promises';
import { boxes, firstBox } from './movie-boxes.ts';

/** Which units of a coded picture begin one that forgets all before it: H.264 (ITU-T H.264, 7.4.1), HEVC (ITU-T H.265, 7.4.2.2). */
const H264: UnitKinds = { kindOf: (byte) => byte & 0x1f, isSlice: (kind) => kind >= 1 && kind <= 5, starts: [5] };
const HEVC: UnitKinds = { kindOf: (byte) => (byte >> 1) & 0x3f, isSlice: (kind) => kind < 32, starts: [19, 20] };
interface UnitKinds {
  readonly kindOf: (byte: number) => number;
  readonly isSlice: (kind: number) => boolean;
  readonly starts: readonly number[];
}
/** By the kind of sample: its box that tells how pictures are decoded, and where in it stands how long the lengths of units are. */
const CODERS: Readonly<Record<string, { readonly box: string; readonly lengthAt: number; readonly units: UnitKinds }>> =
  {
    avc1: { box: 'avcC', lengthAt: 4, units: H264 },
    avc3: { box: 'avcC', lengthAt: 4, units: H264 },
    hvc1: { box: 'hvcC', lengthAt: 21, units: HEVC },
    hev1: { box: 'hvcC', lengthAt: 21, units: HEVC },
  };
/** A picture's first slice lies behind some hundred bytes of what is said of it. */
const HEAD_BYTES = 16 * 1024;

/**
 * Whether each of these pictures of a track forgets all before it; `kinds`: what its stsd box holds. False where that is not known:
 * other codecs than H.264 and HEVC. Others may be key pictures too, but are numbered on from those before
 * them: without these a decoder drops some, and gives others the time of a picture that was dropped.
 */
export async function forgetBefore(
  file: FileHandle,
  kinds: DataView,
  places: Float64Array,
  sizes: Float64Array,
): Promise<boolean> {
  const [entry] = [...boxes(new DataView(kinds.buffer, kinds.byteOffset + 8, kinds.byteLength - 8))];
  const coder = CODERS[entry?.type ?? ''];
  if (entry === undefined || coder === undefined || entry.content.byteLength < SAMPLE_ENTRY_BYTES) return false;
  const { buffer, byteOffset, byteLength } = entry.content;
  const more = new DataView(buffer, byteOffset + SAMPLE_ENTRY_BYTES, byteLength - SAMPLE_ENTRY_BYTES);
  const record = firstBox(more, coder.box);
  if (record === null || record.byteLength <= coder.lengthAt) return false;
  const lengthBytes = (record.getUint8(coder.lengthAt) & 3) + 1;
  const bytes = new Uint8Array(HEAD_BYTES);
  for (const [at, place] of places.entries()) {
    const wanted = Math.min(HEAD_BYTES, sizes[at] ?? 0);
    const { bytesRead } = await file.read(bytes, 0, wanted, place);
    if (!isStart(bytes.subarray(0, bytesRead), lengthBytes, coder.units)) return false;
  }
  return true;
}

/** What a sample of pictures begins with before its boxes (ISO/IEC 14496-12, 12.1.3). */
const SAMPLE_ENTRY_BYTES = 78;

/** By its first slice; one that does not come within what was read is none. */
function isStart(picture: Uint8Array, lengthBytes: number, { kindOf, isSlice, starts }: UnitKinds): boolean {
  for (let at = 0; at + lengthBytes < picture.length;) {
    const length = picture.subarray(at, at + lengthBytes).reduce((sum, byte) => sum * 256 + byte, 0);
    const kind = kindOf(picture[at + lengthBytes] ?? 0);
    if (isSlice(kind)) return starts.includes(kind);
    at += lengthBytes + length;
  }
  return false;
}
