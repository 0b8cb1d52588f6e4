import type { Talk, TalkEdit, TalkEvent, TalkSpan, TalkTake } from '../model/talk.ts';
import { piecesWithin, recordedAt, talkLength } from './talk-time.ts';

/** The talk-through after an edit. One that finds nothing to change gives the very same value. */
export function edited(talk: Talk, edit: TalkEdit): Talk {
  switch (edit.kind) {
    case 'retake': {
      const length = talk.takes[edit.take]?.length;
      // A take of which nothing is left says nothing.
      if (length === undefined || length === 0) return talk;
      const kept = piecesWithin(talk.pieces, 0, edit.from);
      return { ...talk, pieces: [...kept, { take: edit.take, from: 0, to: length }] };
    }
    case 'cut':
      return withoutSpans(talk, edit.spans);
    case 'move-drawing':
      return withEvents(talk, (event) =>
        event.kind === 'draw' && event.shape.id === edit.shape.id ? [{ ...event, shape: edit.shape }] : [event],
      );
    case 'remove-drawing':
      return withEvents(talk, (event) => (shapeOf(event) === edit.shape ? [] : [event]));
    case 'swap-frame':
      return swapped(talk, edit);
    case 'caption':
      return withEventAt(talk, edit.at, { kind: 'caption', text: edit.text });
    case 'chapter':
      return withEventAt(talk, edit.at, { kind: 'chapter', title: edit.title });
    case 'closing':
      return { ...talk, closing: edit.closing };
  }
}

/** A talk-through that was recorded, with the edits of it in their order. */
export function editedBy(talk: Talk, edits: readonly TalkEdit[]): Talk {
  return edits.reduce(edited, talk);
}

function withoutSpans(talk: Talk, spans: readonly TalkSpan[]): Talk {
  let from = 0;
  const pieces = [];
  for (const span of spans) {
    pieces.push(...piecesWithin(talk.pieces, from, span.from));
    from = Math.max(from, span.to);
  }
  pieces.push(...piecesWithin(talk.pieces, from, talkLength(talk)));
  // With nothing left there would be nothing to see; the way to be rid of all is to remove the talk-through.
  return pieces.length === 0 ? talk : { ...talk, pieces };
}

function withEvents(talk: Talk, change: (event: TalkEvent) => readonly TalkEvent[]): Talk {
  let changed = false;
  const takes = talk.takes.map((take) => {
    const events = take.events.flatMap(change);
    const same = events.length === take.events.length && events.every((event, index) => event === take.events[index]);
    if (same) return take;
    changed = true;
    return { ...take, events };
  });
  return changed ? { ...talk, takes } : talk;
}

function shapeOf(event: TalkEvent): string | null {
  if (event.kind === 'draw') return event.shape.id;
  return event.kind === 'erase' ? event.shape : null;
}

function swapped(talk: Talk, { at, pane, frame }: Extract<TalkEdit, { kind: 'swap-frame' }>): Talk {
  const recorded = recordedAt(talk, at);
  const take = recorded === null ? undefined : talk.takes[recorded.take];
  if (recorded === null || take === undefined) return talk;
  const sets = (event: TalkEvent): boolean =>
    event.at <= recorded.at &&
    ((event.kind === 'frame' && event.pane === pane) || (event.kind === 'show' && event.panes[pane] !== undefined));
  const found = take.events.findLastIndex(sets);
  const event = take.events[found];
  if (event === undefined) return talk;
  const instead =
    event.kind === 'show'
      ? { ...event, panes: event.panes.map((each, index) => (index === pane ? { ...each, frame } : each)) }
      : { ...event, frame };
  return withTake(talk, recorded.take, {
    ...take,
    events: take.events.map((each, index) => (index === found ? (instead as TalkEvent) : each)),
  });
}

type Titled =
  | { readonly kind: 'caption'; readonly text: string }
  | { readonly kind: 'chapter'; readonly title: string };

function withEventAt(talk: Talk, at: number, what: Titled): Talk {
  const recorded = recordedAt(talk, at);
  const take = recorded === null ? undefined : talk.takes[recorded.take];
  if (recorded === null || take === undefined) return talk;
  const others = take.events.filter((event) => event.kind !== what.kind || event.at !== recorded.at);
  const place = others.findIndex((event) => event.at > recorded.at);
  const events = [...others];
  events.splice(place < 0 ? events.length : place, 0, { at: recorded.at, ...what });
  return withTake(talk, recorded.take, { ...take, events });
}

function withTake(talk: Talk, index: number, take: TalkTake): Talk {
  return { ...talk, takes: talk.takes.map((each, number) => (number === index ? take : each)) };
}
