import type { FileHandle } from 'node:fs/promises';
import { unitHeads } from './coded-units.ts';
import { firstBox } from './movie-boxes.ts';
import { sampleEntryOf } from './sample-entry.ts';

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
  const entry = sampleEntryOf(kinds);
  const coder = CODERS[entry?.type ?? ''];
  if (entry === null || coder === undefined) return false;
  const record = firstBox(entry.more, coder.box);
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

/** By its first slice; one that does not come within what was read is none. */
function isStart(picture: Uint8Array, lengthBytes: number, { kindOf, isSlice, starts }: UnitKinds): boolean {
  for (const head of unitHeads(picture, lengthBytes)) if (isSlice(kindOf(head))) return starts.includes(kindOf(head));
  return false;
}
