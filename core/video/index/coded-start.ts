import type { FileHandle } from 'node:fs/promises';
import type { CodedStart } from '../../time/first-picture.ts';
import { unitHeads } from './coded-units.ts';
import { boxAt, boxes, firstBox } from './movie-boxes.ts';
import { editsOf } from './picture-track.ts';
import { trackOrientations } from './read-display-boxes.ts';
import { sampleEntryOf } from './sample-entry.ts';
import { readTrackSamples } from './track-samples.ts';
import type { TrackSamples } from './track-samples.ts';

/** Pictures before the first shown one that are decoded for it; more take longer than to have ffmpeg make it. */
const MOST_PICTURES = 300;
const MOST_BYTES = 32 * 1024 * 1024;
/** A picture that is shown before one that is decoded before it follows within so many: the most that H.264 may hold back. */
const MOST_HELD_BACK = 16;

/**
 * Reads where the pictures of an MP4 or MOV file begin: its tables and the coded pictures themselves. Null where that is not
 * plain: as `readTrackSamples`, no H.264 in an `avcC` box, several edits, wide colours, a group that leans on the one before, or
 * too much hidden before the first shown picture.
 *
 * Throws what the file system throws.
 */
export async function readCodedStart(file: FileHandle): Promise<CodedStart | null> {
  const track = await readTrackSamples(file);
  const description = track === null ? null : plainDescription(track.trak);
  if (track === null || description === null) return null;
  const { moov, trak, trackId, timescale, shown, keys } = track;
  const orientation = trackOrientations(moov).get(trackId);
  const edits = editsOf(moov, trak, timescale);
  if (orientation === undefined || edits === null || edits.length > 1) return null;
  const [edit] = edits;
  const span = upToFirst(track, edit?.mediaTime ?? -Infinity);
  if (span === null) return null;

  const read = await readSamples(file, track, span);
  if (read === null || !isFresh(read[0]?.data, lengthBytes(description))) return null;
  const kept = read.filter(({ sample, data }) => sample === span.shown || isReference(data, lengthBytes(description)));
  const begins = edit === undefined ? 0 : edit.start - edit.mediaTime / timescale;
  const timeOf = (sample: number): number => Math.round(((shown[sample] ?? 0) / timescale + begins) * 1e6);
  return {
    ...orientation,
    codec: `avc1.${Buffer.from(description.subarray(1, 4)).toString('hex')}`,
    description,
    pictures: kept.map(({ sample, data }) => ({
      key: keys[sample] === 1,
      time: timeOf(sample),
      bytes: data.length,
    })),
    data: Uint8Array.from(Buffer.concat(kept.map(({ data }) => data))),
    shown: timeOf(span.shown),
  };
}

/** The `avcC` box of H.264 in the usual colours; null for all else. */
function plainDescription(trak: DataView): Uint8Array<ArrayBuffer> | null {
  const kinds = boxAt(trak, 'mdia', 'minf', 'stbl', 'stsd');
  const entry = kinds === null ? null : sampleEntryOf(kinds);
  if (entry === null || !['avc1', 'avc3'].includes(entry.type) || hasWideColours(entry.more)) return null;
  const record = firstBox(entry.more, 'avcC');
  if (record === null || record.byteLength < 7) return null;
  return Uint8Array.from(new Uint8Array(record.buffer, record.byteOffset, record.byteLength));
}

/** Primaries, transfer and matrix as ITU-T H.273 numbers them: BT.2020 and P3, PQ and HLG. */
const WIDE: readonly (readonly number[])[] = [
  [9, 12],
  [16, 18],
  [9, 10],
];

/** As a colr box says (ISO/IEC 14496-12, 12.1.5; nclc is QuickTime's). */
function hasWideColours(entry: DataView): boolean {
  return [...boxes(entry)].some(({ type, content }) => {
    if (type !== 'colr' || content.byteLength < 10) return false;
    const isListed = [0x6e636c78, 0x6e636c63].includes(content.getUint32(0));
    return isListed && WIDE.some((wide, place) => wide.includes(content.getUint16(4 + 2 * place)));
  });
}

/** Samples from a key picture up to the shown one, in file order. */
interface Span {
  readonly key: number;
  readonly shown: number;
}

/**
 * From a key picture up to the first one shown at `from` (ticks) or later; null where it takes too much. What is shown before the
 * key picture that stands before it in the file is made from the group before, too.
 */
function upToFirst({ shown, keys, sizes }: TrackSamples, from: number): Span | null {
  const at = (sample: number): number => shown[sample] ?? Number.NaN;
  let first: Span | null = null;
  let [key, keyBefore] = [-1, -1];
  let after = 0;
  for (let sample = 0; sample < shown.length && after <= MOST_HELD_BACK; sample += 1) {
    if (keys[sample] === 1) [key, keyBefore] = [sample, key];
    if (at(sample) >= from && (first === null || at(sample) < at(first.shown)))
      first = { key: at(key) <= at(sample) ? key : keyBefore, shown: sample };
    if (first !== null) after += 1;
  }
  if (first === null || first.key < 0 || first.shown - first.key >= MOST_PICTURES) return null;
  const bytes = sizes.subarray(first.key, first.shown + 1).reduce((sum, size) => sum + size, 0);
  return bytes > MOST_BYTES ? null : first;
}

interface CodedSample {
  readonly sample: number;
  readonly data: Uint8Array;
}

/** null where the file ends before one of them. */
async function readSamples(
  file: FileHandle,
  { places, sizes }: TrackSamples,
  { key, shown }: Span,
): Promise<readonly CodedSample[] | null> {
  const samples: CodedSample[] = [];
  for (let sample = key; sample <= shown; sample += 1) {
    const data = new Uint8Array(sizes[sample] ?? 0);
    const { bytesRead } = await file.read(data, 0, data.length, places[sample] ?? 0);
    if (bytesRead < data.length) return null;
    samples.push({ sample, data });
  }
  return samples;
}

/** Bytes that say how long a unit is (ISO/IEC 14496-15, 5.3.3.1: lengthSizeMinusOne). */
const lengthBytes = (description: Uint8Array): number => ((description[4] ?? 3) & 3) + 1;

/** Whether it forgets all before it (ITU-T H.264, 7.4.1.2.4: IDR). The window's decoder begins with no other. */
function isFresh(data: Uint8Array | undefined, lengthSize: number): boolean {
  return data !== undefined && firstSlice(data, lengthSize)?.kind === IDR;
}

/** Whether others may need it (ITU-T H.264, 7.4.1: nal_ref_idc), told by its first slice; where that is not found, they may. */
function isReference(data: Uint8Array, lengthSize: number): boolean {
  return firstSlice(data, lengthSize)?.isReference ?? true;
}

const IDR = 5;

function firstSlice(
  data: Uint8Array,
  lengthSize: number,
): { readonly kind: number; readonly isReference: boolean } | null {
  for (const head of unitHeads(data, lengthSize)) {
    const kind = head & 0x1f;
    if (kind >= 1 && kind <= IDR) return { kind, isReference: head >> 5 !== 0 };
  }
  return null;
}
