import type { FrameRef } from '../model/frame.ts';
import type { PlacedPoint, Shape } from '../model/mark.ts';
import type { ReadingKey } from '../model/reading.ts';
import type { Talk, TalkClip, TalkEvent, TalkPane, TalkPointer, TalkPointName } from '../model/talk.ts';
import { recordedAt } from './talk-time.ts';

/** A shape that was drawn while talking. */
export interface TalkDrawing extends TalkClip {
  readonly frame: FrameRef;
  readonly shape: Shape;
}

/** A body point that was placed while talking. */
export interface TalkPoint extends TalkPointName {
  readonly place: PlacedPoint;
}

/** Tells one body point of one frame from all others, and from the ids of shapes. A frame's number may change, its time not. */
export function pointKey({ which, view, frame, point }: TalkPointName): string {
  return `${which} ${view} ${frame.pts} ${point}`;
}

/** All that is to be seen at one time. Parts that do not change stay the same values. */
export interface TalkState {
  readonly panes: readonly TalkPane[];
  readonly drawings: readonly TalkDrawing[];
  readonly points: readonly TalkPoint[];
  readonly marks: { readonly shown: boolean; readonly readings: readonly ReadingKey[] };
  readonly pointer: TalkPointer | null;
  readonly caption: string;
  /** Empty before the first. */
  readonly chapter: string;
}

/** Before anything is shown. */
export const NOTHING_SHOWN: TalkState = {
  panes: [],
  drawings: [],
  points: [],
  marks: { shown: true, readings: [] },
  pointer: null,
  caption: '',
  chapter: '',
};

/** What is seen after an event. The very same value where the event changes nothing. */
export function after(state: TalkState, event: TalkEvent): TalkState {
  switch (event.kind) {
    case 'show':
      return { ...state, panes: event.panes };
    case 'frame':
      return withPane(state, event.pane, (pane) =>
        pane.frame.index === event.frame.index && pane.frame.pts === event.frame.pts
          ? pane
          : { ...pane, frame: event.frame },
      );
    case 'zoom':
      return withPane(state, event.pane, (pane) => ({ ...pane, part: event.part }));
    case 'draw': {
      const { which, view, frame, shape } = event;
      const drawn = { which, view, frame, shape };
      const there = state.drawings.some((each) => each.shape.id === shape.id);
      const drawings = there
        ? state.drawings.map((each) => (each.shape.id === shape.id ? drawn : each))
        : [...state.drawings, drawn];
      return { ...state, drawings };
    }
    case 'erase': {
      const drawings = state.drawings.filter((each) => each.shape.id !== event.shape);
      return drawings.length === state.drawings.length ? state : { ...state, drawings };
    }
    case 'point': {
      const { which, view, frame, point, place } = event;
      const key = pointKey(event);
      const others = state.points.filter((each) => pointKey(each) !== key);
      if (place !== null) return { ...state, points: [...others, { which, view, frame, point, place }] };
      return others.length === state.points.length ? state : { ...state, points: others };
    }
    case 'marks':
      return { ...state, marks: { shown: event.shown, readings: event.readings } };
    case 'pointer':
      return event.place === state.pointer ? state : { ...state, pointer: event.place };
    case 'caption':
      return event.text === state.caption ? state : { ...state, caption: event.text };
    case 'chapter':
      return event.title === state.chapter ? state : { ...state, chapter: event.title };
  }
}

function withPane(state: TalkState, index: number, change: (pane: TalkPane) => TalkPane): TalkState {
  const pane = state.panes[index];
  if (pane === undefined) return state;
  const changed = change(pane);
  return changed === pane ? state : { ...state, panes: state.panes.map((each) => (each === pane ? changed : each)) };
}

/** What is seen at a millisecond of the talk-through, or null where there is none (see `recordedAt`). */
export function stateAt(talk: Talk, time: number): TalkState | null {
  const recorded = recordedAt(talk, time);
  const take = recorded === null ? undefined : talk.takes[recorded.take];
  if (recorded === null || take === undefined) return null;
  let state = NOTHING_SHOWN;
  for (const event of take.events) {
    if (event.at > recorded.at) break;
    state = after(state, event);
  }
  return state;
}

/** From when on what is seen, in the order of time: milliseconds of the talk-through. Each differs from the one before. */
export function changesOf(talk: Talk): readonly { readonly at: number; readonly state: TalkState }[] {
  const changes: { at: number; state: TalkState }[] = [];
  const add = (at: number, state: TalkState): void => {
    const last = changes.at(-1);
    if (last?.state === state) return;
    if (last?.at === at) last.state = state;
    else changes.push({ at, state });
  };
  let start = 0;
  for (const piece of talk.pieces) {
    let state = NOTHING_SHOWN;
    let begun = false;
    for (const event of talk.takes[piece.take]?.events ?? []) {
      if (event.at >= piece.to) break;
      if (event.at > piece.from && !begun) {
        begun = true;
        add(start, state);
      }
      state = after(state, event);
      if (begun) add(start + (event.at - piece.from), state);
    }
    if (!begun) add(start, state);
    start += piece.to - piece.from;
  }
  return changes;
}

/**
 * Ids of the shapes that are drawn while talking, and keys of the body points that are placed: until then they are not there,
 * though the swing has them by now.
 */
export function drawnMarks({ takes }: Pick<Talk, 'takes'>): ReadonlySet<string> {
  return new Set(
    takes.flatMap(({ events }) =>
      events.flatMap((each) =>
        each.kind === 'draw' ? [each.shape.id] : each.kind === 'point' ? [pointKey(each)] : [],
      ),
    ),
  );
}
