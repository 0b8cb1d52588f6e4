import type { Talk, TalkPiece } from '../model/talk.ts';

/** Where a time of the talk-through lies in what was recorded. */
export interface RecordedTime {
  /** Counts the pieces from 0. */
  readonly piece: number;
  readonly take: number;
  /** Milliseconds of the take. */
  readonly at: number;
}

/** Milliseconds that the talk-through takes, >= 0, without the closing card. */
export function talkLength({ pieces }: Pick<Talk, 'pieces'>): number {
  return pieces.reduce((sum, piece) => sum + lengthOf(piece), 0);
}

/**
 * Where the millisecond `time` of the talk-through was recorded. A time at which one piece ends and another begins belongs to
 * the one that begins; the end of all belongs to the last. null before 0, past the end, and where there is no piece.
 */
export function recordedAt({ pieces }: Pick<Talk, 'pieces'>, time: number): RecordedTime | null {
  if (time < 0) return null;
  let start = 0;
  for (const [index, piece] of pieces.entries()) {
    const end = start + lengthOf(piece);
    if (time < end || (time === end && index === pieces.length - 1))
      return { piece: index, take: piece.take, at: piece.from + (time - start) };
    start = end;
  }
  return null;
}

/** When in the talk-through a millisecond of a take is heard: the first time, or null where it was cut. */
export function heardAt({ pieces }: Pick<Talk, 'pieces'>, take: number, at: number): number | null {
  let start = 0;
  for (const piece of pieces) {
    if (piece.take === take && at >= piece.from && at < piece.to) return start + (at - piece.from);
    start += lengthOf(piece);
  }
  return null;
}

/** What of the pieces lies within `from` to `to` of the talk-through, milliseconds; both may lie outside of it. */
export function piecesWithin(pieces: readonly TalkPiece[], from: number, to: number): readonly TalkPiece[] {
  let start = 0;
  return pieces.flatMap((piece) => {
    const begins = start;
    start += lengthOf(piece);
    const part = {
      take: piece.take,
      from: piece.from + Math.max(0, from - begins),
      to: piece.from + Math.min(lengthOf(piece), to - begins),
    };
    return part.from < part.to ? [part] : [];
  });
}

function lengthOf({ from, to }: TalkPiece): number {
  return to - from;
}
