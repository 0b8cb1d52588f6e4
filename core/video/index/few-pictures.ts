import type { FileHandle } from 'node:fs/promises';
import { listedOf } from './listed-pictures.ts';
import type { ListedPictures } from './listed-pictures.ts';
import { forgetBefore } from './forget-before.ts';
import { boxAt } from './movie-boxes.ts';
import { readTrackSamples } from './track-samples.ts';

/**
 * Some key pictures of a clip as an MP4 file of their own: a decoder is through with it at once, where it would go through all of a
 * long clip. What tells how they are decoded and shown is the clip's own, byte by byte; only the tables are others.
 */
export interface FewPictures {
  /** What the file begins with. The pictures follow, one after the other. */
  readonly head: Uint8Array;
  /** Where they lie in the clip, in the order of their times: bytes from its beginning, and how many. */
  readonly places: Float64Array;
  readonly sizes: Float64Array;
  /** Ticks of the clip at which the first is shown, which is 0 in this file; its ticks are as long. */
  readonly first: number;
  /** Ticks a second. */
  readonly timescale: number;
}

/** Some hundred large pictures; what has more is a lie of the file. */
const MOST_BYTES = 128 * 1024 * 1024;

/**
 * Such a file (ISO/IEC 14496-12) of the key pictures shown at these times (ticks of the clip, in any order, at least one). Null
 * where the clip's tables are not plain, as `readListedPictures`, and where a time is not that of exactly one key picture. Null too
 * where one of them does not forget all before it, or nobody knows: other codecs than H.264 and HEVC.
 *
 * Throws what the file system throws.
 */
export async function readFewPictures(file: FileHandle, times: readonly number[]): Promise<FewPictures | null> {
  const track = await readTrackSamples(file);
  const listed = track === null ? null : listedOf(track);
  if (track === null || listed === null) return null;
  const { places, trak } = track;
  const samples = samplesAt(times, listed);
  const own = { header: boxAt(trak, 'tkhd'), handler: boxAt(trak, 'mdia', 'hdlr') };
  const kinds = boxAt(trak, 'mdia', 'minf', 'stbl', 'stsd');
  if (samples === null || own.header === null || own.handler === null || kinds === null) return null;
  const of = (table: Float64Array): Float64Array => Float64Array.from(samples, (sample) => table[sample] ?? 0);
  const [shown, sizes, at] = [of(listed.pts), of(listed.sizes), of(places)];
  if (total(sizes) > MOST_BYTES || !(await forgetBefore(file, kinds, at, sizes))) return null;
  const { timescale } = listed;
  const tables = box('stbl', box('stsd', kinds), ...sampleTables(shown, sizes));
  const only = box(
    'trak',
    box('tkhd', own.header),
    box('mdia', mediaHeader(timescale), box('hdlr', own.handler), box('minf', PICTURE_HEADER, OWN_DATA, tables)),
  );
  const head = headOf(box('moov', movieHeader(timescale), only), total(sizes));
  return { head, places: at, sizes, first: shown[0] ?? 0, timescale };
}

/** Places in the list, in the order of their times. */
function samplesAt(times: readonly number[], { pts, keys }: ListedPictures): readonly number[] | null {
  const at = new Map<number, number[]>(times.map((time) => [time, []]));
  for (const [sample, time] of pts.entries()) at.get(time)?.push(sample);
  const found = [...at].toSorted(([a], [b]) => a - b).map(([, samples]) => samples);
  const isPlain = found.every(([first, ...more]) => first !== undefined && more.length === 0 && keys[first] === 1);
  return isPlain && found.length > 0 ? found.flat() : null;
}

/** stts, stsz and stsc, with one chunk for all; without stss each is a key picture. stco comes with its place, from `headOf`. */
function sampleTables(shown: Float64Array, sizes: Float64Array): readonly Buffer[] {
  const gaps = [...shown].map((time, place) => (shown[place + 1] ?? time + 1) - time);
  return [
    box('stts', words(0, gaps.length, ...gaps.flatMap((gap) => [1, gap]))),
    box('stsz', words(0, 0, sizes.length, ...sizes)),
    box('stsc', words(0, 1, 1, sizes.length, 1)),
    box('stco', words(0, 1, PLACE_TO_COME)),
  ];
}

const PLACE_TO_COME = 0;
const FILE_KIND = box('ftyp', Buffer.from('isom'), words(0x200), Buffer.from('isom'));

/** stco is the last of all boxes, so that its only place stands at the end. */
function headOf(moov: Buffer, bytes: number): Uint8Array {
  const data = words(bytes + 8);
  const head = Buffer.concat([FILE_KIND, moov, data, Buffer.from('mdat')]);
  head.writeUInt32BE(head.length, FILE_KIND.length + moov.length - 4);
  return head;
}

/** Duration and times that nobody reads are 0. */
const movieHeader = (timescale: number): Buffer =>
  box('mvhd', words(0, 0, 0, timescale, 0, 0x10000, 0x1000000, 0, 0), AS_IT_IS, words(0, 0, 0, 0, 0, 0, 2));
const AS_IT_IS = words(0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000);
const mediaHeader = (timescale: number): Buffer => box('mdhd', words(0, 0, 0, timescale, 0, 0x55c40000));
const PICTURE_HEADER = box('vmhd', words(1, 0, 0));
const OWN_DATA = box('dinf', box('dref', words(0, 1), box('url ', words(1))));

function box(type: string, ...parts: readonly ArrayBufferView[]): Buffer {
  const content = Buffer.concat(parts.map((part) => Buffer.from(part.buffer, part.byteOffset, part.byteLength)));
  return Buffer.concat([words(content.length + 8), Buffer.from(type, 'latin1'), content]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  for (const [place, value] of values.entries()) bytes.writeUInt32BE(value, place * 4);
  return bytes;
}

const total = (sizes: Float64Array): number => sizes.reduce((sum, size) => sum + size, 0);
