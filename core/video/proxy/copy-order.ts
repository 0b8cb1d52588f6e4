import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { ClipFormat } from '../index/clip-format.ts';

/** What of a clip is looked at: frames by their number. */
export interface LookedAt {
  /** Where the hand rests; null: nowhere yet. */
  readonly pointer: number | null;
  /** Frames with a name, in any order. */
  readonly named: readonly number[];
}

export const NOTHING_LOOKED_AT: LookedAt = { pointer: null, named: [] };

/** A part is no shorter: an ffmpeg that is started anew takes as long as some dozens of frames. */
const SHORTEST_PART = 48;

/**
 * Where a clip's copy can be begun: frames that decoding enters at, rising, the first is frame 0. Only the first where
 * decoding must begin at the start of the file.
 */
export function partStarts(index: Pick<ClipIndex, 'frames'>, format: ClipFormat): readonly number[] {
  const starts = [0];
  if (format !== 'mov' && format !== 'matroska') return starts;
  for (const [frame, { key }] of index.frames.entries())
    if (key && frame - (starts.at(-1) ?? 0) >= SHORTEST_PART) starts.push(frame);
  return starts;
}

/** The parts of a clip in the order in which they are wanted, by their place among `starts`. */
export function wantedParts(starts: readonly number[], count: number, looked: LookedAt): readonly number[] {
  const partOf = (frame: number): number => starts.findLastIndex((start) => start <= frame);
  const near = looked.pointer ?? Math.min(...looked.named, count);
  const named = looked.named.filter((frame) => frame >= 0 && frame < count);
  const first = named.toSorted((a, b) => Math.abs(a - near) - Math.abs(b - near) || a - b).map(partOf);
  if (looked.pointer !== null) first.unshift(partOf(Math.max(0, looked.pointer)));
  const all = [...starts.keys()];
  if (first.length === 0) return all;
  const [from, to] = [Math.min(...first), Math.max(...first)];
  const between = all.filter((part) => part > from && part < to);
  // What lies ahead before what lies behind.
  return [...new Set([...first, ...between, ...all.filter((part) => part > to), ...all])];
}

/** Which frame of a clip is made next. Only frames of the clip's table count. */
export class CopyOrder {
  readonly #starts: readonly number[];
  readonly #partOf: Uint32Array;
  readonly #has: (frame: number) => boolean;
  readonly #count: number;
  /** Frames that lack a picture, by part. */
  readonly #missing: number[];
  #looked: LookedAt | null = null;
  #order: readonly number[] = [];

  /** `has`: whether the copy has the picture of a frame; it is told by `made` when that changes. */
  constructor(starts: readonly number[], count: number, has: (frame: number) => boolean) {
    this.#starts = starts;
    this.#count = count;
    this.#has = has;
    this.#partOf = new Uint32Array(count);
    this.#missing = starts.map(() => 0);
    let part = 0;
    for (let frame = 0; frame < count; frame += 1) {
      if (starts[part + 1] === frame) part += 1;
      this.#partOf[frame] = part;
      if (!has(frame)) this.#missing[part] = (this.#missing[part] ?? 0) + 1;
    }
  }

  /** The first frame that lacks its picture in the part that is wanted most; null when none does. */
  next(looked: LookedAt): number | null {
    if (looked !== this.#looked) {
      this.#looked = looked;
      this.#order = wantedParts(this.#starts, this.#count, looked);
    }
    const part = this.#order.find((each) => (this.#missing[each] ?? 0) > 0);
    if (part === undefined) return null;
    const { from, to } = this.#span(part);
    for (let frame = from; frame <= to; frame += 1) if (!this.#has(frame)) return frame;
    throw new Error(`part ${part} lacks no picture, though it was said to`);
  }

  /** The copy has the picture of a frame that it lacked. */
  made(frame: number): void {
    const part = this.#partOf[frame] ?? 0;
    this.#missing[part] = (this.#missing[part] ?? 0) - 1;
  }

  /**
   * Whether a pass that comes to `frame` next is to be left for another part: where a part ends, and within one only for
   * that in which the hand rests. Not for one that the pass gets to soon by itself.
   */
  leaves(frame: number, looked: LookedAt): boolean {
    const wanted = this.next(looked);
    if (wanted === null || wanted === frame) return false;
    const [part, wantedPart] = [this.#partOf[frame], this.#partOf[wanted]];
    if (part === wantedPart) return false;
    if (wanted > frame && wanted - frame <= SHORTEST_PART && this.#lacksAll(frame, wanted)) return false;
    const isRested = looked.pointer !== null && this.#partOf[looked.pointer] === wantedPart;
    return isRested || (part !== undefined && this.#starts[part] === frame);
  }

  #lacksAll(from: number, to: number): boolean {
    for (let frame = from; frame < to; frame += 1) if (this.#has(frame)) return false;
    return true;
  }

  #span(part: number): FrameSpan {
    return { from: this.#starts[part] ?? 0, to: (this.#starts[part + 1] ?? this.#count) - 1 };
  }
}
