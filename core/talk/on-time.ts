import type { Talk, TalkPiece } from '../model/talk.ts';
import { LOUDNESS_STEP_MS } from './silence.ts';
import { changesOf, type TalkState } from './talk-state.ts';
import { talkLength } from './talk-time.ts';

/** Where something changes on the time of a talk-through, ms. */
export interface TimeMark {
  readonly at: number;
  readonly kind: 'frame' | 'drawing' | 'caption' | 'chapter' | 'cut';
}

/** Frames that follow one another so soon were played, and a drawing was still drawn: they are one change, ms. */
const PLAYED_MS = 250;

/**
 * When frames, drawings, captions and findings change, and where parts meet that were not recorded one after the other, in the
 * order of time. Of frames that are played, and of a drawing that grows, only the first is one; the beginning is none.
 */
export function timeMarks(talk: Talk): readonly TimeMark[] {
  const changes = changesOf(talk);
  let [lastFrame, lastDrawing] = [-Infinity, -Infinity];
  const marks = changes.slice(1).flatMap(({ at, state }, index): TimeMark[] => {
    const before = changes[index]?.state;
    if (before === undefined) return [];
    const isPlayed = at - lastFrame < PLAYED_MS;
    const isFrame = framesOf(before) !== framesOf(state);
    if (isFrame) lastFrame = at;
    const isDrawing = before.drawings !== state.drawings || before.points !== state.points;
    const isDrawn = at - lastDrawing < PLAYED_MS;
    if (isDrawing) lastDrawing = at;
    return [
      ...(isFrame && !isPlayed ? [{ at, kind: 'frame' } as const] : []),
      ...(isDrawing && !isDrawn ? [{ at, kind: 'drawing' } as const] : []),
      ...(before.caption === state.caption ? [] : [{ at, kind: 'caption' } as const]),
      ...(before.chapter === state.chapter ? [] : [{ at, kind: 'chapter' } as const]),
    ];
  });
  return [...marks, ...cutsOf(talk)].sort((one, other) => one.at - other.at);
}

function framesOf({ panes }: TalkState): string {
  return panes.map(({ which, view, frame }) => `${which} ${view} ${frame.pts}`).join();
}

function cutsOf({ pieces }: Pick<Talk, 'pieces'>): readonly TimeMark[] {
  let at = 0;
  return pieces.slice(0, -1).map(({ from, to }) => ({ at: (at += to - from), kind: 'cut' }));
}

/**
 * How loud the talk-through is, a number each LOUDNESS_STEP_MS (`loudnessOf`), from how loud its takes are: 0 where there is no
 * sound. `of`: by number; undefined where it is not known yet.
 */
export function loudnessOfTalk(talk: Talk, of: (take: number) => Float32Array | undefined): Float32Array {
  const loudness = new Float32Array(Math.ceil(talkLength(talk) / LOUDNESS_STEP_MS));
  let start = 0;
  for (const { take, from, to } of talk.pieces) {
    const heard = of(take);
    for (
      let time = Math.ceil(start / LOUDNESS_STEP_MS) * LOUDNESS_STEP_MS;
      time < start + to - from;
      time += LOUDNESS_STEP_MS
    )
      loudness[time / LOUDNESS_STEP_MS] = heard?.[Math.floor((from + time - start) / LOUDNESS_STEP_MS)] ?? 0;
    start += to - from;
  }
  return loudness;
}

/** What of takes is heard from a time on, in pieces of at most `most` milliseconds; the first begins at `from`. */
export function soundFrom(talk: Talk, from: number, most: number): readonly (TalkPiece & { readonly at: number })[] {
  let start = 0;
  return talk.pieces.flatMap((piece) => {
    const length = piece.to - piece.from;
    const begins = start;
    start += length;
    const first = Math.max(0, from - begins);
    const parts = [];
    for (let at = first; at < length; at += most)
      parts.push({
        ...{ take: piece.take, from: piece.from + at, to: piece.from + Math.min(length, at + most) },
        at: begins + at,
      });
    return parts;
  });
}
