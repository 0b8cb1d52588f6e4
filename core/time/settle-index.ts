import type { ClipIndex, ShownFrame } from './clip-index.ts';
import { spansOf } from './damaged-spans.ts';
import { withoutEntries } from './entries.ts';
import { frameRate } from './frame-rate.ts';
import { shownFrames } from './shown-frames.ts';

/** What came out of one decode of a whole clip. */
export interface DecodePass {
  /** Time stamps of the pictures it delivered, ticks of the clip's time base; any order, each counts once. */
  readonly delivered: readonly number[];
  /** Whether ffmpeg reported damage on the way: in the file, in a packet or while decoding. */
  readonly errors: boolean;
}

/** Time stamps from `first` to `last`, ticks, both included; `last` is Infinity for all that follows. */
export interface TickSpan {
  readonly first: number;
  readonly last: number;
}

/**
 * Holds the file's own table against a decode of all of it, so that no frame is ever silently shifted in number.
 *
 * - Without errors the decode wins: a frame of the table that was not delivered is none (a picture the format hides).
 * - With errors a frame of the table that was not delivered keeps its number and counts as missing, also before the
 *   first that was delivered: what broke there is a hole in the clip, not another clip.
 * - A decode that delivers nothing proves nothing: the table stays, and every frame of it is missing.
 * - In every case a delivered picture that the table does not list is put in its place by its time.
 * - Where a decode without errors led to other times, those depend on all that was decoded before: then no frame is one
 *   to begin at, and every picture is found by decoding from the start.
 *
 * What a frame carries beside its time (key picture, how long the last one stays) comes from the table.
 */
export function settleFrames(
  table: readonly ShownFrame[],
  { delivered, errors }: DecodePass,
): { readonly frames: readonly ShownFrame[]; readonly missing: readonly boolean[] } {
  const came = new Set(delivered);
  const listed = new Map(table.map((frame) => [frame.pts, frame]));
  const keepsAll = errors || came.size === 0;
  const times = keepsAll ? new Set([...listed.keys(), ...came]) : came;
  const { frames } = shownFrames(
    [...times].map((pts) => {
      const frame = listed.get(pts);
      return { pts, duration: frame?.ticks ?? 0, key: frame?.key ?? false, hidden: false };
    }),
  );
  const differ = !keepsAll && numbersDiffer(table, frames);
  return { frames: differ ? withoutEntries(frames) : frames, missing: frames.map(({ pts }) => !came.has(pts)) };
}

/**
 * The index of a clip after a decode of all of it. `spoilt` says where pictures were delivered that cannot be trusted;
 * damage that the index already knows of is found anew, not kept.
 */
export function settleIndex(index: ClipIndex, pass: DecodePass, spoilt: readonly TickSpan[] = []): ClipIndex {
  const { frames, missing } = settleFrames(index.frames, pass);
  const times = frames.map(({ pts }) => pts);
  const damaged = times.map(
    (pts, place) => missing[place] === true || spoilt.some(({ first, last }) => first <= pts && pts <= last),
  );
  return { ...index, ...frameRate(times, index.timebase), frames, damage: spansOf(damaged) };
}

/**
 * The index with the frames at `wanted` times put back that it has lost against an earlier one, marked as damaged: no
 * picture was delivered for them, but something hangs on them. Times that neither index knows are left out.
 */
export function keepFrames(index: ClipIndex, earlier: ClipIndex, wanted: readonly number[]): ClipIndex {
  const has = new Set(index.frames.map(({ pts }) => pts));
  const lost = new Set(wanted.filter((pts) => !has.has(pts)));
  const back = earlier.frames.filter(({ pts }) => lost.has(pts));
  if (back.length === 0) return index;
  const damagedTimes = new Set(back.map(({ pts }) => pts));
  for (const { from, to } of index.damage)
    for (const { pts } of index.frames.slice(from, to + 1)) damagedTimes.add(pts);
  const { frames } = shownFrames(
    [...index.frames, ...back].map(({ pts, ticks, key }) => ({ pts, duration: ticks, key, hidden: false })),
  );
  const times = frames.map(({ pts }) => pts);
  const damage = spansOf(times.map((pts) => damagedTimes.has(pts)));
  return { ...index, ...frameRate(times, index.timebase), frames, damage };
}

/** Whether a frame has another number, is new or is gone. */
export function numbersDiffer(before: readonly ShownFrame[], after: readonly ShownFrame[]): boolean {
  return before.length !== after.length || before.some(({ pts }, place) => pts !== after[place]?.pts);
}
