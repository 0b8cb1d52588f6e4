import type { FileHandle } from 'node:fs/promises';
import type { ShownFrames } from '../../time/shown-frames.ts';
import { boxAt, boxes, firstBox, readMovie, tracks } from './movie-boxes.ts';
import type { PacketLine } from './parse-framecrc.ts';
import { readPictureTrack } from './picture-track.ts';
import { eachOfRuns, sizesOf, timescaleOf } from './sample-tables.ts';

/** What the tables of the only picture track of an MP4 or MOV file list, in file order, as ffmpeg would list it. */
export interface ListedPictures {
  readonly trackId: number;
  /** Ticks a second of `pts` and `durations`. */
  readonly timescale: number;
  readonly pts: Float64Array;
  readonly durations: Float64Array;
  readonly sizes: Float64Array;
  /** 1 where decoding may start. */
  readonly keys: Uint8Array;
}

/** ffmpeg takes what is farther from the decode time for a mistake of the writer; so far no phone is. */
const MOST_LATER = 2 ** 27;
/** Tables that change what stss and stts say, or that only some readers follow: such a file is left to ffmpeg. */
const UNUSUAL = ['stps', 'sbgp', 'sgpd', 'saiz'] as const;

/**
 * Lists the coded pictures of a file by its tables alone (ISO/IEC 14496-12, 8.6 and 8.7), some hundreds of kilobytes where a
 * reading of all takes the whole file. Null where the tables are not plain: several picture tracks or kinds of samples,
 * fragments, more than one edit, an edit that hides pictures, a table or a picture that is not all there. ffmpeg's reading
 * of the file then says what is shown.
 *
 * Throws what the file system throws.
 */
export async function readListedPictures(file: FileHandle): Promise<ListedPictures | null> {
  return (await readPlacedPictures(file))?.listed ?? null;
}

/** Pictures with where they lie, and the boxes of their track. */
export interface PlacedPictures {
  readonly listed: ListedPictures;
  /** Where each begins, bytes from the beginning of the file; in the order of `listed`. */
  readonly places: Float64Array;
  readonly trak: DataView;
}

/** As `readListedPictures`, with where each picture lies. */
export async function readPlacedPictures(file: FileHandle): Promise<PlacedPictures | null> {
  const movie = await readMovie(file);
  if (movie === null || firstBox(movie.content, 'mvex') !== null) return null;
  const [only, ...more] = [...tracks(movie.content)].filter(({ trak }) => isOfPictures(trak));
  if (only === undefined || more.length > 0) return null;
  const { size } = await file.stat();
  return listTrack(movie.content, only, size);
}

/** The handler (8.4.3 hdlr) tells what a track is of. */
function isOfPictures(trak: DataView): boolean {
  const handler = boxAt(trak, 'mdia', 'hdlr');
  return handler !== null && handler.byteLength >= 12 && handler.getUint32(8) === 0x76696465;
}

function listTrack(
  moov: DataView,
  { id, trak }: { readonly id: number; readonly trak: DataView },
  fileSize: number,
): PlacedPictures | null {
  const header = boxAt(trak, 'mdia', 'mdhd');
  const timescale = timescaleOf(header);
  const table = boxAt(trak, 'mdia', 'minf', 'stbl');
  if (header === null || timescale === null || table === null || !isPlain(trak, table)) return null;
  const sizes = sizesOf(firstBox(table, 'stsz'));
  const times = sizes === null ? null : timesOf(table, sizes.length);
  const keys = sizes === null ? null : keysOf(firstBox(table, 'stss'), sizes.length);
  if (sizes === null || times === null || keys === null || sizes.includes(0)) return null;
  const places = placesOf(table, sizes, fileSize);
  if (places === null) return null;
  const shift = shiftOf(moov, id, trak, times);
  const last = mediaDuration(header) - (times.decoded.at(-1) ?? 0);
  if (shift === null || last !== times.gaps.at(-1)) return null;
  const pts = times.shown.map((time) => time + shift);
  return { listed: { trackId: id, timescale, pts, durations: times.gaps, sizes, keys }, places, trak };
}

/** One kind of samples, lying in the file itself, and no table that says more than the usual ones. */
function isPlain(trak: DataView, table: DataView): boolean {
  const kinds = firstBox(table, 'stsd');
  const places = boxAt(trak, 'mdia', 'minf', 'dinf', 'dref');
  if (kinds === null || kinds.byteLength < 8 || kinds.getUint32(4) !== 1) return false;
  if (places === null || places.byteLength < 20 || places.getUint32(4) !== 1) return false;
  // The flag of the only entry says that there is no other file.
  const isOwn = (places.getUint32(16) & 1) === 1;
  return isOwn && [...boxes(table)].every(({ type }) => !(UNUSUAL as readonly string[]).includes(type));
}

interface Times {
  readonly decoded: Float64Array;
  readonly gaps: Float64Array;
  readonly shown: Float64Array;
}

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

/** What an edit adds to each time, ticks: 0 without one; null unless one edit shows all of every picture. */
function shiftOf(moov: DataView, id: number, trak: DataView, { shown, gaps }: Times): number | null {
  if (boxAt(trak, 'edts', 'elst') === null) return 0;
  const track = readPictureTrack(moov, id);
  const [edit, ...more] = track?.edits ?? [];
  if (track === null || edit === undefined || more.length > 0 || !edit.isNormal) return null;
  const isWhole = shown.every(
    (time, place) => time >= edit.mediaTime && time + (gaps[place] ?? 0) <= Math.round(edit.mediaEnd),
  );
  return isWhole && edit.mediaEnd !== Infinity ? Math.round(edit.start * track.timescale) - edit.mediaTime : null;
}

/** 8.4.2 mdhd: duration after the two times and the ticks a second. */
function mediaDuration(header: DataView): number {
  return header.getUint8(0) === 1 ? Number(header.getBigUint64(24)) : header.getUint32(16);
}

/**
 * The frames that are shown, as `shownFrames` makes them of pictures one by one, and whether their times rise from group to group
 * (`timesRise`). Three minutes have 43,000: a list of objects for each step takes longer than to read the file's tables.
 */
export function framesOf({ pts, durations, keys }: ListedPictures): {
  readonly table: ShownFrames;
  readonly rises: boolean;
} {
  const at = (place: number): number => pts[place] ?? Number.NaN;
  const frames: { pts: number; ticks: number; key: boolean }[] = [];
  let last = 0;
  for (const place of inOrder(pts)) {
    const time = at(place);
    const before = frames.at(-1);
    // The first in file order stands.
    if (before?.pts === time) continue;
    if (before !== undefined) before.ticks = time - before.pts;
    frames.push({ pts: time, ticks: before?.ticks ?? 1, key: keys[place] === 1 });
    last = place;
  }
  const [end, duration] = [frames.at(-1), durations[last] ?? 0];
  if (end !== undefined && duration > 0) end.ticks = duration;
  let latest = -Infinity;
  let rises = true;
  for (let place = 0; place < pts.length; place += 1) {
    rises &&= keys[place] !== 1 || at(place) >= latest;
    latest = Math.max(latest, at(place));
  }
  return { table: { frames, timeless: 0, doubled: pts.length - frames.length, hidden: 0 }, rises };
}

/** Places of times as they rise; of equal ones the first comes first. */
function inOrder(times: Float64Array): Uint32Array {
  const places = new Uint32Array(times.length);
  let isRising = true;
  for (let place = 0; place < times.length; place += 1) {
    places[place] = place;
    isRising &&= place === 0 || (times[place] ?? 0) >= (times[place - 1] ?? 0);
  }
  return isRising ? places : places.sort((one, other) => (times[one] ?? 0) - (times[other] ?? 0) || one - other);
}

/** As ffmpeg prints them. */
export function packetsOf({ pts, durations, sizes, keys }: ListedPictures): PacketLine[] {
  return Array.from(pts, (time, place) => ({
    ...{ pts: time, duration: durations[place] ?? 0, size: sizes[place] ?? 0, key: keys[place] === 1 },
    ...{ discard: false, corrupt: false, secondField: false },
  }));
}
