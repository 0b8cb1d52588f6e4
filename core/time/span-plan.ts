import type { ClipIndex } from './clip-index.ts';
import { frameWithPts } from './frame-table.ts';
import type { TimedPicture } from './shown-frames.ts';

/** Which coded pictures a shortened clip must hold. */
export interface SpanPlan {
  /** Shown frames of the clip that the shortened one shows, indices, both included. */
  readonly first: number;
  readonly last: number;
  /** Time stamps of the first and the last coded picture to hold, ticks; those outside of them are left out. */
  readonly entry: number;
  readonly end: number;
  /** Whether coded pictures before the first shown one are needed, which the file must hide. */
  readonly hiddenBefore: boolean;
  /** The same after the last shown one: the time stamp of the first of them, ticks; null when there are none. */
  readonly hiddenAfter: number | null;
}

/**
 * Plans how to hold frames `from` to `to` (0 <= from <= to < frames) without coding a picture again.
 *
 * It begins at the last key picture that is not later than `from`; `passOver` such keys are passed over, for clips whose
 * keys are none. What an open group shows before its key needs the group before and is left out. It ends at the first
 * frame from `to` on after which nothing coded so far is shown later, so that no frame in between is missing.
 *
 * `coded` are the pictures in file order, from the beginning of the file or at least from that key on, to its end or far
 * enough. Null when they do not reach that far, or when there is no such key.
 */
export function planSpan(
  { frames }: Pick<ClipIndex, 'frames'>,
  coded: readonly TimedPicture[],
  from: number,
  to: number,
  passOver: number,
): SpanPlan | null {
  const wanted = frames[from]?.pts;
  if (wanted === undefined || frames[to] === undefined || to < from)
    throw new Error(`the span must lie within 0 to ${frames.length - 1}, not ${from} to ${to}`);

  const place = entryPlaces(coded, wanted)[passOver];
  const key = place === undefined ? undefined : coded[place];
  if (place === undefined || key?.pts === undefined || key.pts === null) return null;
  const entry = key.pts;
  const first = key.hidden ? frames.findIndex((frame) => frame.pts >= entry) : frameWithPts({ frames }, entry);
  if (first === null || first < 0) return null;

  const ending = endOf(frames, coded, { place, entry, first, to });
  if (ending === null) return null;
  return { first, entry, hiddenBefore: key.hidden, ...ending };
}

/** Places in file order of the key pictures at which decoding may begin to show what comes from `wanted` on. */
function entryPlaces(coded: readonly TimedPicture[], wanted: number): readonly number[] {
  const places: number[] = [];
  let latestBefore = -Infinity;
  for (const [place, { pts, key, hidden }] of coded.entries()) {
    if (pts === null) continue;
    // Were a frame that is shown later coded before the key, it would be missing.
    if (key && pts <= wanted && latestBefore < pts) places.push(place);
    if (!hidden) latestBefore = Math.max(latestBefore, pts);
  }
  return places.reverse();
}

function endOf(
  frames: ClipIndex['frames'],
  coded: readonly TimedPicture[],
  start: { readonly place: number; readonly entry: number; readonly first: number; readonly to: number },
): Pick<SpanPlan, 'last' | 'end' | 'hiddenAfter'> | null {
  const places = new Map<number, number>();
  /** Latest time stamp of all that is coded from the entry to a place. */
  const latest: number[] = [];
  for (let place = start.place; place < coded.length; place += 1) {
    const pts = coded[place]?.pts ?? null;
    const before = latest.at(-1) ?? start.entry;
    latest.push(pts === null ? before : Math.max(before, pts));
    if (pts !== null && pts >= start.entry && !places.has(pts)) places.set(pts, place);
  }

  let [reached, end] = [start.place, start.entry];
  for (let index = start.first; index < frames.length; index += 1) {
    const pts = frames[index]?.pts ?? Infinity;
    const place = places.get(pts);
    if (place === undefined) return null;
    reached = Math.max(reached, place);
    end = latest[reached - start.place] ?? pts;
    if (index >= start.to && end === pts) return { last: index, end, hiddenAfter: null };
  }
  const lastPts = frames.at(-1)?.pts ?? end;
  const later = coded
    .slice(start.place, reached + 1)
    .flatMap(({ pts }) => (pts !== null && pts > lastPts ? [pts] : []));
  return { last: frames.length - 1, end, hiddenAfter: Math.min(...later) };
}
