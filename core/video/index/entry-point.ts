import type { ClipIndex } from '../../time/clip-index.ts';
import { entryFrame } from '../../time/frame-table.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import type { ClipFormat } from './clip-format.ts';

/** MPEG-TS has no table of its pictures: ffmpeg finds a place by trying, which may miss a key picture. */
const TS_MARGIN_SECONDS = 1;
const MICROSECONDS = 1e6;
/**
 * ffmpeg's MP4 reader compares a wanted time with when pictures are decoded, and where an edit list begins within a group
 * it is some frames off: asked for the very time of a key picture it then enters a whole group earlier (measured: 2 frames
 * short at a reordering of 2). Asked for a little later it enters right. Only in groups so long that the next key picture
 * is far, however its file orders pictures (16 at most in H.264 and HEVC).
 */
const SLACK_FRAMES = 6;
const LONG_GROUP = 24;

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
  const slack = format === 'mov' && isLongGroup(index, entry) ? SLACK_FRAMES : 0;
  // ffmpeg seeks by microseconds; rounded down it would miss the key picture by less than one.
  return Math.ceil(secondsOf(index, entry + slack) * MICROSECONDS) / MICROSECONDS;
}

function isLongGroup(index: ClipIndex, entry: number): boolean {
  const others = index.frames.slice(entry + 1, entry + LONG_GROUP);
  return others.length === LONG_GROUP - 1 && others.every(({ key }) => !key);
}

function secondsOf(index: ClipIndex, frameIndex: number): number {
  return ticksToSeconds(index.frames[frameIndex]?.pts ?? 0, index.timebase);
}
