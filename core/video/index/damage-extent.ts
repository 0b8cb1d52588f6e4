import type { TickSpan } from '../../time/settle-index.ts';

/** One coded picture, in the order in which it is decoded. */
export interface CodedPicture {
  /** Ticks; null when it has no time or is never shown. */
  readonly pts: number | null;
  /** Whether decoding may start here and did deliver a whole picture. */
  readonly entry: boolean;
}

/** A sign of damage. Places count coded pictures in decoding order. */
export interface Evidence {
  /** The earliest picture it may be about. */
  readonly from: number;
  /** The latest. */
  readonly to: number;
  /** Time stamp of the last picture that was delivered whole before the sign came; null for none, or not known. */
  readonly after: number | null;
}

/**
 * The times whose pictures cannot be trusted: from the damaged picture on, all that is decoded after it, up to the next
 * picture at which decoding may start. Pictures shown before that entry are spoilt even when they are decoded after it,
 * because those of an open group lean on both sides. What was delivered before the sign came is sound.
 */
export function damageExtent(pictures: readonly CodedPicture[], evidence: Iterable<Evidence>): TickSpan[] {
  const count = pictures.length;
  /** Earliest time from a place on, and time of the next entry after it. */
  const earliest = new Array<number>(count + 1).fill(Infinity);
  const nextEntry = new Array<number>(count + 1).fill(Infinity);
  for (let place = count - 1; place >= 0; place -= 1) {
    const { pts, entry } = pictures[place + 1] ?? { pts: null, entry: false };
    nextEntry[place] = entry && pts !== null ? pts : (nextEntry[place + 1] ?? Infinity);
    earliest[place] = Math.min(earliest[place + 1] ?? Infinity, pictures[place]?.pts ?? Infinity);
  }

  /** One span for each entry that ends it; the earliest start counts. */
  const starts = new Map<number, number>();
  for (const { from, to, after } of evidence) {
    const end = nextEntry[Math.min(to, count)] ?? Infinity;
    const start = Math.max(earliest[Math.min(from, count)] ?? Infinity, after === null ? -Infinity : after + 1);
    if (start < end) starts.set(end, Math.min(start, starts.get(end) ?? Infinity));
  }
  return [...starts].map(([end, first]) => ({ first, last: end - 1 })).sort((a, b) => a.first - b.first);
}
