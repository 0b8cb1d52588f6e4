import { boxAt, tracks } from './movie-boxes.ts';

/** More coded pictures than ten hours at 240 a second hold are taken for a lie of the file. */
const MOST_SAMPLES = 10_000_000;

/** Where the coded pictures of one MP4 or MOV track lie in time, as its own tables say. */
export interface PictureTrack {
  /** Ticks a second of the track. */
  readonly timescale: number;
  /** When each coded picture is shown, in ticks of the track before any edit; in file order. */
  readonly times: Float64Array;
  /** Their bytes, in the same order. */
  readonly sizes: Float64Array;
  readonly edits: readonly TrackEdit[];
}

/** One line of an edit list that shows something (ISO/IEC 14496-12, 8.6.6 elst). */
export interface TrackEdit {
  /** When it begins in the movie, seconds. */
  readonly start: number;
  /** The first tick of the track that it shows. */
  readonly mediaTime: number;
  /** The first tick that it shows no more; Infinity where the file does not say how long it is. */
  readonly mediaEnd: number;
}

/**
 * Reads a track's times (stts, ctts), sizes (stsz) and edits (elst) from the content of a moov box. Null without a whole
 * set of them, without an edit list, and for a track whose pictures are all in fragments: nothing is edited there.
 */
export function readPictureTrack(moov: DataView, trackId: number): PictureTrack | null {
  for (const { id, trak } of tracks(moov)) {
    if (id !== trackId) continue;
    const timescale = timescaleOf(boxAt(trak, 'mdia', 'mdhd'));
    const edits = timescale === null ? null : editsOf(moov, trak, timescale);
    const samples = boxAt(trak, 'mdia', 'minf', 'stbl');
    const sizes = samples === null ? null : sizesOf(boxAt(samples, 'stsz'));
    if (timescale === null || edits === null || samples === null || sizes === null) return null;
    return { timescale, edits, sizes, times: timesOf(samples, sizes.length) };
  }
  return null;
}

/** mdhd and mvhd begin alike: a version that tells how long their first two times are, then ticks a second. */
function timescaleOf(header: DataView | null): number | null {
  const at = header !== null && header.byteLength > 0 && header.getUint8(0) === 1 ? 20 : 12;
  if (header === null || header.byteLength < at + 4) return null;
  return header.getUint32(at) || null;
}

/** An edit of media time -1 shows nothing for as long as it says. */
function editsOf(moov: DataView, trak: DataView, timescale: number): readonly TrackEdit[] | null {
  const movieScale = timescaleOf(boxAt(moov, 'mvhd'));
  const list = boxAt(trak, 'edts', 'elst');
  if (movieScale === null || list === null || list.byteLength < 8) return null;
  const isLong = list.getUint8(0) === 1;
  const step = isLong ? 20 : 12;
  const count = Math.min(list.getUint32(4), Math.floor((list.byteLength - 8) / step));
  const edits: TrackEdit[] = [];
  let start = 0;
  for (let line = 0; line < count; line += 1) {
    const at = 8 + line * step;
    const seconds = (isLong ? Number(list.getBigUint64(at)) : list.getUint32(at)) / movieScale;
    const mediaTime = isLong ? Number(list.getBigInt64(at + 8)) : list.getInt32(at + 4);
    const mediaEnd = seconds === 0 ? Infinity : mediaTime + seconds * timescale;
    if (mediaTime >= 0) edits.push({ start, mediaTime, mediaEnd });
    start += seconds;
  }
  return edits.length === 0 ? null : edits;
}

function sizesOf(box: DataView | null): Float64Array | null {
  if (box === null || box.byteLength < 12) return null;
  const common = box.getUint32(4);
  const count = box.getUint32(8);
  if (count === 0 || count > MOST_SAMPLES || (common === 0 && box.byteLength < 12 + count * 4)) return null;
  return Float64Array.from({ length: count }, (_, place) => common || box.getUint32(12 + place * 4));
}

/** Runs of gaps between decode times, and of what is added to show a picture later than it is decoded. */
function timesOf(samples: DataView, count: number): Float64Array {
  const times = new Float64Array(count);
  let decoded = 0;
  eachOfRuns(boxAt(samples, 'stts'), count, (place, gap) => {
    times[place] = decoded;
    // A gap is unsigned; a writer that needs a negative one is beyond what can be told.
    decoded += gap >>> 0;
  });
  eachOfRuns(boxAt(samples, 'ctts'), count, (place, later) => {
    times[place] = (times[place] ?? 0) + later;
  });
  return times;
}

/** Calls for each of the first `count` samples with its value in a table of runs (how many, value as signed 32 bits). */
function eachOfRuns(box: DataView | null, count: number, take: (place: number, value: number) => void): void {
  if (box === null || box.byteLength < 8) return;
  const runs = Math.min(box.getUint32(4), Math.floor((box.byteLength - 8) / 8));
  let place = 0;
  for (let run = 0; run < runs && place < count; run += 1) {
    const end = Math.min(count, place + box.getUint32(8 + run * 8));
    const value = box.getInt32(12 + run * 8);
    for (; place < end; place += 1) take(place, value);
  }
}
