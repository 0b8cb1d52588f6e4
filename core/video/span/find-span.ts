import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { entryFrame } from '../../time/frame-table.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import type { TimedPicture } from '../../time/shown-frames.ts';
import { planSpan } from '../../time/span-plan.ts';
import type { SpanPlan } from '../../time/span-plan.ts';
import type { ClipSource, ReadOptions } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import { inputArguments, listPicturesArguments } from '../process/ffmpeg-arguments.ts';
import { parseFramecrc, picturesOf } from '../index/parse-framecrc.ts';
import { requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';
import type { ReadingRange } from './span-arguments.ts';

/** Read beyond the end, so that pictures are found which are coded later than they are shown. */
const BEYOND_SECONDS = 3;
const WHOLE_FILE: ReadingRange = { enterAt: null, until: null };

/** A plan, and which part of the file must be read for it. */
export interface FoundSpan {
  readonly plan: SpanPlan;
  readonly reading: ReadingRange;
}

/**
 * Looks through the coded pictures around a span, without decoding any, for where it can begin and end. Of a long clip
 * only that part is read, unless it proves to be too short. `passOver` as in `planSpan`. Null when nothing fits.
 */
export async function findSpan(
  source: ClipSource,
  index: ClipIndex,
  { from, to }: FrameSpan,
  passOver: number,
  options: ReadOptions,
): Promise<FoundSpan | null> {
  const near = readingAbout(source, index, { from, to }, passOver);
  for (const reading of near.enterAt === null && near.until === null ? [near] : [near, WHOLE_FILE]) {
    const plan = planSpan(index, await listPictures(source, reading, options), from, to, passOver);
    if (plan !== null) return { plan, reading };
  }
  return null;
}

function readingAbout(source: ClipSource, index: ClipIndex, { from, to }: FrameSpan, passOver: number): ReadingRange {
  let entry = entryFrame(index, from);
  for (let passed = 0; passed < passOver && entry !== null; passed += 1) entry = entryFrame(index, entry - 1);
  const last = index.frames[to];
  const isNearEnd = last === undefined || index.frames.length - 1 - to < 1;
  return {
    enterAt: entry === null ? null : entrySeconds(index, source.format, entry),
    until: isNearEnd ? null : ticksToSeconds(last.pts + last.ticks, index.timebase) + BEYOND_SECONDS,
  };
}

/** The coded pictures of a part of the file, in file order. */
async function listPictures(
  source: ClipSource,
  { enterAt, until }: ReadingRange,
  { ffmpeg, signal }: ReadOptions,
): Promise<readonly TimedPicture[]> {
  const args = ['-v', 'error', ...inputArguments(source.path, source.format, enterAt), '-map', `0:${source.stream}`];
  args.push(...listPicturesArguments(ffmpeg, until === null ? [] : ['-to', until.toFixed(6)]));
  const { output, end } = await runFfmpeg(ffmpeg, args, { signal });
  requireSuccess(end);
  return picturesOf(parseFramecrc(output.toString('latin1')).packets);
}
