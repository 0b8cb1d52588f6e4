import type { FileHandle } from 'node:fs/promises';
import type { ShownFrames } from '../../time/shown-frames.ts';
import { boxAt, boxes, firstBox } from './movie-boxes.ts';
import type { PacketLine } from './parse-framecrc.ts';
import { editsOf } from './picture-track.ts';
import { sampleEntryOf } from './sample-entry.ts';
import { readTrackSamples } from './track-samples.ts';
import type { TrackSamples } from './track-samples.ts';

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

/** Tables that change what stss and stts say, or that only some readers follow: such a file is left to ffmpeg. */
const UNUSUAL = ['stps', 'sbgp', 'sgpd', 'saiz'] as const;

/** Kinds of samples that are mostly made from others: H.264 and HEVC. */
const BETWEEN: readonly string[] = ['avc1', 'avc3', 'hvc1', 'hev1'];

/**
 * Lists the coded pictures of a file by its tables alone, where a reading of all takes the whole file. Null where the tables are
 * not plain: as `readTrackSamples`, an unusual table, more than one edit, an edit that hides pictures. ffmpeg's reading of
 * the file then says what is shown.
 *
 * Throws what the file system throws.
 */
export async function readListedPictures(file: FileHandle): Promise<ListedPictures | null> {
  const samples = await readTrackSamples(file);
  return samples === null ? null : listedOf(samples);
}

/** The same of samples that are known. */
export function listedOf(samples: TrackSamples): ListedPictures | null {
  const shift = isUsual(samples) ? shiftOf(samples) : null;
  if (shift === null) return null;
  const { trackId, timescale, shown, gaps: durations, sizes, keys } = samples;
  return { trackId, timescale, pts: shown.map((time) => time + shift), durations, sizes, keys };
}

/**
 * No table says more than the usual ones, the last picture is as long as they and the track say, and decoding may start at the first. Without
 * a table of key pictures all are: of H.264 and HEVC few writers mean that, and ffmpeg looks at each.
 */
function isUsual({ trak, decoded, gaps, keys }: TrackSamples): boolean {
  const header = boxAt(trak, 'mdia', 'mdhd');
  const table = boxAt(trak, 'mdia', 'minf', 'stbl');
  if (header === null || table === null || mediaDuration(header) - (decoded.at(-1) ?? 0) !== gaps.at(-1)) return false;
  const entry = sampleEntryOf(firstBox(table, 'stsd') ?? table);
  if (keys[0] !== 1 || (firstBox(table, 'stss') === null && entry !== null && BETWEEN.includes(entry.type)))
    return false;
  return [...boxes(table)].every(({ type }) => !(UNUSUAL as readonly string[]).includes(type));
}

/** 8.4.2 mdhd: duration after the two times and the ticks a second. */
function mediaDuration(header: DataView): number {
  return header.getUint8(0) === 1 ? Number(header.getBigUint64(24)) : header.getUint32(16);
}

/** What an edit adds to each time, ticks: 0 without one; null unless one edit shows all of every picture. */
function shiftOf({ moov, trak, timescale, shown, gaps }: TrackSamples): number | null {
  const list = boxAt(trak, 'edts', 'elst');
  if (list === null) return 0;
  const [edit, ...more] = editsOf(moov, trak, timescale) ?? [];
  if (edit === undefined || more.length > 0 || !edit.isNormal) return null;
  // One that shows nothing may stand before it, and then takes time. Of one that stands behind it ffmpeg makes frames.
  if (list.getUint32(4) !== (edit.start > 0 ? 2 : 1)) return null;
  const isWhole = shown.every(
    (time, place) => time >= edit.mediaTime && time + (gaps[place] ?? 0) <= Math.round(edit.mediaEnd),
  );
  return isWhole && edit.mediaEnd !== Infinity ? Math.round(edit.start * timescale) - edit.mediaTime : null;
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
