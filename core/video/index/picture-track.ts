import { boxAt, tracks } from './movie-boxes.ts';
import { eachOfRuns, sizesOf, timescaleOf } from './sample-tables.ts';

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
  /** Whether it is shown at the pace of the track, as nearly all are. */
  readonly isNormal: boolean;
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
    if (timescale === null || edits === null || edits.length === 0 || samples === null || sizes === null) return null;
    return { timescale, edits, sizes, times: timesOf(samples, sizes.length) };
  }
  return null;
}

/** Lines of an edit list; more are a lie of the file. */
const MOST_EDITS = 10_000;

/**
 * The edits of a track, `timescale` ticks a second; none where it has no list of them, null where one cannot be gone by. An edit of
 * media time -1 shows nothing for as long as it says.
 */
export function editsOf(moov: DataView, trak: DataView, timescale: number): readonly TrackEdit[] | null {
  const movieScale = timescaleOf(boxAt(moov, 'mvhd'));
  const list = boxAt(trak, 'edts', 'elst');
  if (movieScale === null || list === null || list.byteLength < 8) return [];
  if (list.getUint32(4) > MOST_EDITS) return null;
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
    const isNormal = list.getInt32(at + step - 4) === 0x10000;
    if (mediaTime >= 0) edits.push({ start, mediaTime, mediaEnd, isNormal });
    start += seconds;
  }
  return edits;
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
