import type { TalkSpan } from '../../../core/model/talk.ts';
import { createStore } from '../../shell/state/store.ts';

/** Where one is in the talk-through that is put right. */
export interface CursorState {
  /** Milliseconds of it. */
  readonly time: number;
  readonly playing: boolean;
  /** The part that is chosen, or null. */
  readonly part: TalkSpan | null;
}

export const cursor = createStore<CursorState>({ time: 0, playing: false, part: null });

/** Goes to a time within 0 to `length`, ms. */
export function goToTime(time: number, length: number): void {
  const wanted = Math.round(Math.min(length, Math.max(0, time)));
  cursor.update((state) => (state.time === wanted ? state : { ...state, time: wanted }));
}

/** Chooses a part, whichever end comes first; a part of nothing is none. */
export function choosePart(from: number, to: number): void {
  const [start, end] = [Math.round(Math.min(from, to)), Math.round(Math.max(from, to))];
  cursor.update((state) => ({ ...state, part: start === end ? null : { from: start, to: end } }));
}

/** The part begins or ends at the cursor; the other end stays, where it still fits. */
export function setPartEnd(end: 'from' | 'to', length: number): void {
  const { time, part } = cursor.get();
  if (end === 'from') choosePart(time, part !== null && part.to > time ? part.to : length);
  else choosePart(part !== null && part.from < time ? part.from : 0, time);
}

export function forgetPart(): void {
  cursor.update((state) => (state.part === null ? state : { ...state, part: null }));
}

/** Another talk-through, or a shorter one. */
export function keepWithin(length: number): void {
  cursor.update((state) => ({
    ...state,
    time: Math.min(state.time, length),
    part: state.part !== null && state.part.to > length ? null : state.part,
  }));
}
