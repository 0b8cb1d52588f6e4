import type { ClipIndex } from '../time/clip-index.ts';
import { entryFrame } from '../time/frame-table.ts';
import { ticksToSeconds } from '../time/rational.ts';
import type { ClipFormat } from './clip-format.ts';

/** MPEG-TS has no table of its pictures: ffmpeg finds a place by trying, which may miss a key picture. */
const TS_MARGIN_SECONDS = 1;
const MICROSECONDS = 1e6;

/**
 * Where reading must start to decode frame `frameIndex` whole, in seconds of the clip's clock; null = at the start of
 * the file. MP4, MOV and Matroska list their key pictures with times. Of the others only MPEG-TS gives every picture a
 * time of its own; AVI and the rest are read from the start, where counting cannot go wrong.
 */
export function entrySeconds(index: ClipIndex, format: ClipFormat, frameIndex: number): number | null {
  const margin = format === 'mov' || format === 'matroska' ? 0 : format === 'mpegts' ? TS_MARGIN_SECONDS : null;
  if (margin === null) return null;
  let entry = entryFrame(index, frameIndex);
  const first = index.frames[entry ?? 0];
  if (first === undefined) return null;
  const latest = ticksToSeconds(first.pts, index.timebase) - margin;
  while (entry !== null && entry > 0 && secondsOf(index, entry) > latest) entry = entryFrame(index, entry - 1);
  if (entry === null || entry === 0) return null;
  // ffmpeg seeks by microseconds; rounded down it would miss the key picture by less than one.
  return Math.ceil(secondsOf(index, entry) * MICROSECONDS) / MICROSECONDS;
}

function secondsOf(index: ClipIndex, frameIndex: number): number {
  return ticksToSeconds(index.frames[frameIndex]?.pts ?? 0, index.timebase);
}
