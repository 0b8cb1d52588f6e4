import { open } from 'node:fs/promises';
import type { Ratio } from '../../model/frame.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import { readPackets } from './clip-source.ts';
import type { ReadOptions } from './clip-source.ts';
import { readMovie } from './movie-boxes.ts';
import type { PacketLine } from './parse-framecrc.ts';
import { readPictureTrack } from './picture-track.ts';
import type { PictureTrack } from './picture-track.ts';

/** From the picture at `pts` on (ticks), pictures are shown `seconds` later than their time stamp says, with the sound's. */
export interface ClockShift {
  readonly pts: number;
  readonly seconds: number;
}

/** How many pictures ffmpeg may list more or fewer than the file's edits at their beginning. */
const MOST_OFF = 32;
/** Pictures that are compared to find that out. */
const COMPARED = 512;
/** Seconds. Where edits begin is told in the movie's ticks, which may be coarser than those of the pictures. */
const MOST_ROUNDING = 0.001;

/**
 * How the clock of a clip's time stamps lies to that of its sound, by time stamp, rising; empty where they are one.
 *
 * ffmpeg gives sound the times that the file's edit list says. Pictures it counts on from the first one that it shows,
 * wherever in its group the edit begins, and moves that one to 0 (libavformat/mov.c, mov_fix_index). Names and marks hang
 * on these time stamps and they stay as they are; whoever joins sound and pictures adds this. Formats other than MP4 and
 * MOV have no edits, and what lies in fragments ffmpeg leaves on the file's clock.
 *
 * @throws AppError as `readPackets`.
 */
export async function readPictureClock(path: string, options: ReadOptions): Promise<readonly ClockShift[]> {
  const { source, packets } = await readPackets(path, options);
  if (source.format !== 'mov' || source.trackId === null) return [];
  const file = await open(source.path, 'r');
  try {
    const movie = await readMovie(file);
    const track = movie === null ? null : readPictureTrack(movie.content, source.trackId);
    return track === null ? [] : clockShifts(track, packets, source.timebase);
  } finally {
    await file.close();
  }
}

/** Seconds to add to the time stamp `pts`. */
export function shiftAt(shifts: readonly ClockShift[], pts: number): number {
  return (shifts.findLast((shift) => shift.pts <= pts) ?? shifts[0])?.seconds ?? 0;
}

/**
 * Holds what the file's own edits show, in the order of the movie, against what ffmpeg lists. A pair counts where both
 * have the same number of bytes; times alone would not tell one frame from the next.
 */
export function clockShifts(track: PictureTrack, packets: readonly PacketLine[], timebase: Ratio): ClockShift[] {
  const listed = packets.flatMap(({ pts, size, discard }) => (discard || pts === null ? [] : [{ pts, size }]));
  listed.sort((a, b) => a.pts - b.pts);
  const shown = shownByEdits(track, listed.length + MOST_OFF);
  const skip = bestSkip(shown, listed);
  const rounding = Math.max(ticksToSeconds(1, timebase), MOST_ROUNDING);
  const shifts: ClockShift[] = [];
  for (const [place, { pts, size }] of listed.entries()) {
    const pair = shown[place + skip];
    if (pair === undefined || pair.size !== size) continue;
    const seconds = pair.seconds - ticksToSeconds(pts, timebase);
    if (Math.abs(seconds - (shifts.at(-1)?.seconds ?? Infinity)) > rounding) shifts.push({ pts, seconds });
  }
  return shifts.every(({ seconds }) => Math.abs(seconds) <= rounding) ? [] : shifts;
}

interface ShownSample {
  /** Of the movie. */
  readonly seconds: number;
  readonly size: number;
}

/** The first `most` pictures that the edits show, in the movie's order. */
function shownByEdits({ times, sizes, edits, timescale }: PictureTrack, most: number): readonly ShownSample[] {
  const order = Uint32Array.from(times, (_, place) => place).sort((a, b) => (times[a] ?? 0) - (times[b] ?? 0));
  const shown: ShownSample[] = [];
  for (const { start, mediaTime, mediaEnd } of edits)
    for (let at = firstFrom(order, times, mediaTime); at < order.length && shown.length < most; at += 1) {
      const place = order[at] ?? 0;
      const time = times[place] ?? 0;
      if (time >= mediaEnd) break;
      shown.push({ seconds: start + (time - mediaTime) / timescale, size: sizes[place] ?? 0 });
    }
  return shown;
}

/** Place in `order` of the first time that is not before `wanted`. */
function firstFrom(order: Uint32Array, times: Float64Array, wanted: number): number {
  let [low, high] = [0, order.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[order[middle] ?? 0] ?? 0) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many places later a listed picture stands among the shown ones: where most sizes agree, of equals the least. */
function bestSkip(shown: readonly ShownSample[], listed: readonly { readonly size: number }[]): number {
  let best = { skip: 0, same: -1 };
  for (let off = 0; off <= 2 * MOST_OFF; off += 1) {
    const skip = off % 2 === 0 ? off / 2 : -(off + 1) / 2;
    let same = 0;
    for (let place = 0; place < Math.min(listed.length, COMPARED); place += 1)
      if (shown[place + skip]?.size === listed[place]?.size && shown[place + skip] !== undefined) same += 1;
    if (same > best.same) best = { skip, same };
  }
  return best.skip;
}
