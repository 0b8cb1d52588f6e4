import type { ClipIndex } from '../../time/clip-index.ts';
import { ticksToSeconds } from '../../time/rational.ts';
import type { SpanPlan } from '../../time/span-plan.ts';
import type { ClipFormat } from '../index/clip-format.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { inputArguments } from '../process/ffmpeg-arguments.ts';

/** Where in the file reading begins and ends, in seconds of the clip's clock; null = its beginning, its end. */
export interface ReadingRange {
  readonly enterAt: number | null;
  readonly until: number | null;
}

/** A file to be made: how ffmpeg calls its format, and whether it gets the sound. */
export interface SpanOutput {
  readonly muxer: string;
  readonly sound: boolean;
}

/** ffmpeg's writers for what each of its readers opens, best first. */
const MUXERS: Readonly<Record<ClipFormat, readonly string[]>> = {
  mov: ['mp4', 'mov'],
  matroska: ['matroska'],
  avi: ['avi'],
  mpegts: ['mpegts'],
  mpeg: ['vob'],
  flv: ['flv'],
  asf: ['asf'],
};

/**
 * Those in which the first shown frame gets the time 0: in MP4 and MOV what comes before it is then hidden, and AVI would
 * fill the time before it with empty frames. The others keep the clip's times, which their writers want above 0.
 */
const BEGINS_AT_0: ReadonlySet<ClipFormat> = new Set(['mov', 'matroska', 'avi']);

/** By how many ticks all times of a part are earlier than in its clip; `first`: the time of its first frame there. */
export function ticksTaken(format: ClipFormat, first: number): number {
  return BEGINS_AT_0.has(format) ? first : 0;
}

/** Ways to write a shortened clip, best first: a container that does not take the sound is better than none. */
export function spanOutputs(format: ClipFormat, fileName: string, sound: boolean): readonly SpanOutput[] {
  const quickTime = format === 'mov' && fileName.toLowerCase().endsWith('.mov');
  const muxers = quickTime ? MUXERS.mov.toReversed() : MUXERS[format];
  const mute = muxers.map((muxer) => ({ muxer, sound: false }));
  return sound ? [...muxers.map((muxer) => ({ muxer, sound: true })), ...mute] : mute;
}

/** Arguments before the input of a job that copies packets, each with the time stamp that the file gives it. */
export function spanInputOptions(source: ClipSource, { enterAt }: ReadingRange): string[] {
  return inputArguments(source.path, source.format, enterAt).slice(0, -2);
}

/**
 * Arguments after the input: exactly the coded pictures of the plan, untouched. All their times move by the same whole
 * ticks, hence no gap changes. The sound that is heard with them comes `shift` seconds after their time stamps
 * (`readPictureClock`); in the new file it has the time of the pictures.
 */
export function spanOutputOptions(
  source: ClipSource,
  index: Pick<ClipIndex, 'frames' | 'timebase'>,
  plan: SpanPlan,
  { until }: ReadingRange,
  { muxer, sound }: SpanOutput,
  shift: number,
): string[] {
  const [first, last] = [index.frames[plan.first], index.frames[plan.last]];
  if (first === undefined || last === undefined) throw new Error('a plan must lie within its clip');
  const begins = ticksTaken(source.format, first.pts);
  const { num, den } = index.timebase;

  const args = ['-map', `0:${source.stream}`, ...(sound ? ['-map', '0:a'] : []), '-map_metadata', '0'];
  args.push('-c', 'copy', '-copyinkf', '-copyts', '-avoid_negative_ts', 'disabled');
  args.push('-bsf:v', packetFilter(`lt(pts,${plan.entry})+gt(pts,${plan.end})`, `(${begins})`));
  const from = ticksToSeconds(first.pts, index.timebase) + shift;
  const to = ticksToSeconds(last.pts + last.ticks, index.timebase) + shift;
  const earlier = `round(((${begins})*${num}/${den}+(${shift}))/TB)`;
  if (sound) args.push('-bsf:a', packetFilter(`lt(pts*tb,${from})+gte(pts*tb,${to})`, earlier));
  if (until !== null) args.push('-to', until.toFixed(6));
  // Edits are told in ticks of the movie: in those of the pictures none is rounded.
  if (source.format === 'mov')
    args.push('-video_track_timescale', String(den), '-movie_timescale', String(den), '-movflags', 'use_metadata_tags');
  if (source.format === 'mpegts') args.push('-mpegts_copyts', '1', '-muxdelay', '0', '-muxpreload', '0');
  return [...args, '-f', muxer];
}

/** Leaves out packets where `leaveOut` is not 0 and takes `ticks` from the times of the others. */
function packetFilter(leaveOut: string, ticks: string): string {
  return `noise=drop='${leaveOut}',setts=pts='PTS-${ticks}':dts='DTS-${ticks}'`;
}
