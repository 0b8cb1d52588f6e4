import { LANGUAGE } from '../../../../core/model/language.ts';
import { say } from '../../../../core/model/say.ts';
import type { FrameSpan, Ratio } from '../../../../core/model/frame.ts';
import type { ShownFrame } from '../../../../core/time/clip-index.ts';
import { ticksToSeconds } from '../../../../core/time/rational.ts';

/** Parts of the speed at which the file plays, as one over each. */
export const SLOWINGS = [1, 2, 4, 8] as const;
export type Slowing = (typeof SLOWINGS)[number];

export interface PlaybackClip {
  readonly frames: readonly ShownFrame[];
  /** Seconds a tick. */
  readonly timebase: Ratio;
}

/** A screen's refresh may be this much longer than a frame and still show each: 59.94 and 60 are one. */
const REFRESH_TOLERANCE = 0.1;

/**
 * The frame after `at`, `every` frames on but never past the end of the span; from its end (or from outside of it) its
 * beginning again when it `loops`, else null.
 */
export function nextFrame(at: number, every: number, span: FrameSpan, loops: boolean): number | null {
  if (at >= span.from && at < span.to) return Math.min(span.to, at + every);
  return loops && span.to > span.from ? span.from : null;
}

/** Where a run that is started at a frame begins: there, or at the beginning of the span when there is no going on. */
export function firstFrame(at: number, span: FrameSpan): number {
  return at >= span.from && at < span.to ? at : span.from;
}

/**
 * How long frame `at` stays until frame `next` is due, in milliseconds, by the clip's own time stamps. When the run begins
 * anew (`next` is not later) it stays as long as the file says.
 */
export function stayOf({ frames, timebase }: PlaybackClip, at: number, next: number, slowing: number): number {
  const [frame, later] = [frames[at], frames[next]];
  if (frame === undefined || later === undefined) return 0;
  const ticks = next > at ? later.pts - frame.pts : frame.ticks;
  return ticksToSeconds(ticks, timebase) * slowing * 1000;
}

/** The fewest frames a picture can go on by so that a screen that refreshes every `refresh` ms can show each picture. */
export function smallestEvery(
  { frames, timebase }: PlaybackClip,
  span: FrameSpan,
  slowing: number,
  refresh: number,
): number {
  const [first, last] = [frames[span.from], frames[span.to]];
  if (first === undefined || last === undefined || span.to <= span.from) return 1;
  const stay = (ticksToSeconds(last.pts - first.pts, timebase) * slowing * 1000) / (span.to - span.from);
  return Math.max(1, Math.ceil(refresh / stay - REFRESH_TOLERANCE));
}

/** e.g. "running", "running, every 8th frame". */
export function playbackInWords(every: number): string {
  return every === 1 ? say`playing` : say`playing, every ${ordinal(every)} frame`;
}

function ordinal(count: number): string {
  if (LANGUAGE === 'de') return `${String(count)}.`;
  const teens = count % 100 >= 11 && count % 100 <= 13;
  const ending = teens ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
  return `${String(count)}${ending}`;
}
