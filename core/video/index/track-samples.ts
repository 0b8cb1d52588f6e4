import type { FileHandle } from 'node:fs/promises';
import { boxAt, boxes, firstBox, readMovie, tracks } from './movie-boxes.ts';
import { eachOfRuns, sizesOf, timescaleOf } from './sample-tables.ts';

/** The coded pictures of the only picture track of an MP4 or MOV file, in file order, before any edit. */
export interface TrackSamples {
  readonly trackId: number;
  /** Ticks a second of all times. */
  readonly timescale: number;
  readonly decoded: Float64Array;
  /** From the time that one is decoded to that of the next. */
  readonly gaps: Float64Array;
  readonly shown: Float64Array;
  readonly sizes: Float64Array;
  /** Where each begins, bytes from the beginning of the file. */
  readonly places: Float64Array;
  /** 1 where decoding may start. */
  readonly keys: Uint8Array;
  readonly moov: DataView;
  readonly trak: DataView;
}

/** ffmpeg takes what is farther from the decode time for a mistake of the writer; so far no phone is. */
const MOST_LATER = 2 ** 27;

/** Pictures of an hour at 240 a second; more are listed by ffmpeg, which takes its time outside of this program. */
const MOST_PICTURES = 1_000_000;
/** What is read; of two of a kind readers take one or the other. */
const READ = ['stsd', 'stts', 'ctts', 'stss', 'stsz', 'stsc', 'stco', 'co64', 'elst'];

/**
 * Reads the tables of a file (ISO/IEC 14496-12, 8.6 and 8.7), some hundreds of kilobytes of a long one. Null where they are not
 * plain: several picture tracks or kinds of samples, fragments, a table twice, a table or a picture that is not all there, more
 * than a million pictures.
 *
 * Throws what the file system throws.
 */
export async function readTrackSamples(file: FileHandle): Promise<TrackSamples | null> {
  const movie = await readMovie(file);
  if (movie === null || firstBox(movie.content, 'mvex') !== null) return null;
  const [only, ...more] = [...tracks(movie.content)].filter(({ trak }) => isOfPictures(trak));
  if (only === undefined || more.length > 0) return null;
  const { size } = await file.stat();
  return samplesOf(movie.content, only, size);
}

/** The handler (8.4.3 hdlr) tells what a track is of. */
function isOfPictures(trak: DataView): boolean {
  const handler = boxAt(trak, 'mdia', 'hdlr');
  return handler !== null && handler.byteLength >= 12 && handler.getUint32(8) === 0x76696465;
}

function samplesOf(
  moov: DataView,
  { id: trackId, trak }: { readonly id: number; readonly trak: DataView },
  fileSize: number,
): TrackSamples | null {
  const timescale = timescaleOf(boxAt(trak, 'mdia', 'mdhd'));
  const table = boxAt(trak, 'mdia', 'minf', 'stbl');
  if (timescale === null || table === null || !isPlain(trak, table)) return null;
  const sizes = sizesOf(firstBox(table, 'stsz'));
  if (sizes === null || sizes.length > MOST_PICTURES || sizes.includes(0)) return null;
  const times = timesOf(table, sizes.length);
  const keys = keysOf(firstBox(table, 'stss'), sizes.length);
  if (times === null || keys === null) return null;
  const places = placesOf(table, sizes, fileSize);
  if (places === null) return null;
  return { trackId, timescale, ...times, sizes, places, keys, moov, trak };
}

/** One kind of samples, lying in the file itself. */
function isPlain(trak: DataView, table: DataView): boolean {
  const edits = firstBox(trak, 'edts');
  const read = [...boxes(table), ...(edits === null ? [] : boxes(edits))].map(({ type }) => type);
  if (READ.some((type) => read.indexOf(type) !== read.lastIndexOf(type))) return false;
  const kinds = firstBox(table, 'stsd');
  const places = boxAt(trak, 'mdia', 'minf', 'dinf', 'dref');
  if (kinds === null || kinds.byteLength < 8 || kinds.getUint32(4) !== 1) return false;
  if (places === null || places.byteLength < 20 || places.getUint32(4) !== 1) return false;
  // The flag of the only entry says that there is no other file.
  return (places.getUint32(16) & 1) === 1;
}

type Times = Pick<TrackSamples, 'decoded' | 'gaps' | 'shown'>;

/** null where a table does not reach to the last sample, or holds what no writer means. */
function timesOf(table: DataView, count: number): Times | null {
  const times = { decoded: new Float64Array(count), gaps: new Float64Array(count), shown: new Float64Array(count) };
  let [now, listed, isSane] = [0, 0, true];
  eachOfRuns(firstBox(table, 'stts'), count, (place, gap) => {
    [times.decoded[place], times.gaps[place], times.shown[place]] = [now, gap, now];
    now += gap;
    listed += 1;
    isSane &&= gap > 0;
  });
  const later = firstBox(table, 'ctts');
  let put = 0;
  eachOfRuns(later, count, (place, by) => {
    times.shown[place] = (times.decoded[place] ?? 0) + by;
    put += 1;
    isSane &&= Math.abs(by) < MOST_LATER;
  });
  return isSane && listed === count && (later === null || put === count) ? times : null;
}

/** Without the table every sample is a key picture; samples are counted from 1 and rise. */
function keysOf(box: DataView | null, count: number): Uint8Array | null {
  if (box === null) return new Uint8Array(count).fill(1);
  const listed = box.byteLength < 8 ? 0 : box.getUint32(4);
  if (listed === 0 || box.byteLength < 8 + listed * 4) return null;
  const keys = new Uint8Array(count);
  let before = 0;
  for (let line = 0; line < listed; line += 1) {
    const sample = box.getUint32(8 + line * 4);
    if (sample <= before || sample > count) return null;
    keys[sample - 1] = 1;
    before = sample;
  }
  return keys;
}

/**
 * Where every sample begins; null where one does not lie within the file: of a file cut short ffmpeg lists fewer. Chunks: 8.7.4
 * stsc, 8.7.5 stco, co64.
 */
function placesOf(table: DataView, sizes: Float64Array, fileSize: number): Float64Array | null {
  const [runs, short, long] = [firstBox(table, 'stsc'), firstBox(table, 'stco'), firstBox(table, 'co64')];
  const chunkPlaces = short ?? long;
  if (runs === null || chunkPlaces === null || runs.byteLength < 8 || chunkPlaces.byteLength < 8) return null;
  const [runCount, chunks] = [runs.getUint32(4), chunkPlaces.getUint32(4)];
  const width = short === null ? 8 : 4;
  if (runs.byteLength < 8 + runCount * 12 || chunkPlaces.byteLength < 8 + chunks * width) return null;
  const places = new Float64Array(sizes.length);
  let sample = 0;
  for (let run = 0; run < runCount; run += 1) {
    const first = runs.getUint32(8 + run * 12);
    const each = runs.getUint32(12 + run * 12);
    const next = run + 1 < runCount ? runs.getUint32(20 + run * 12) : chunks + 1;
    if (first < 1 || next <= first || next > chunks + 1) return null;
    for (let chunk = first; chunk < next; chunk += 1) {
      const at = 8 + (chunk - 1) * width;
      let end = width === 4 ? chunkPlaces.getUint32(at) : Number(chunkPlaces.getBigUint64(at));
      if (sample + each > sizes.length) return null;
      for (let i = sample; i < sample + each; i += 1) {
        places[i] = end;
        end += sizes[i] ?? 0;
      }
      sample += each;
      if (end > fileSize) return null;
    }
  }
  return sample === sizes.length ? places : null;
}
