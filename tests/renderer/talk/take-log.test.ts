import { expect, test } from 'vitest';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { after, NOTHING_SHOWN, type TalkPoint } from '../../../core/talk/talk-state.ts';
import { createTakeLog } from '../../../renderer/talk/state/take-log.ts';
import { frame, line, pane, shapeId } from '../../core/talk/sample-talk.ts';

const screen = (drawings: readonly ReturnType<typeof line>[], index = 0) => ({
  panes: [pane(index)],
  drawings: drawings.map((shape) => ({ which: 'now', view: 'down-the-line', frame: frame(4), shape }) as const),
  points: [],
  marks: { shown: true, readings: [] },
  pointer: null,
});
const NONE: ReadonlySet<string> = new Set();
const asItIs = (instant: number): number => instant;

/** The shapes that are seen at the end of a log, told in the order of time as its reader does. */
const seenAfter = (events: readonly TalkEvent[], until = Infinity) =>
  events
    .toSorted((one, other) => one.at - other.at)
    .filter(({ at }) => at <= until)
    .reduce(after, NOTHING_SHOWN)
    .drawings.map(({ shape }) => shape);

test('a mark that was there before is the swing’s own and no drawing, as long as no hand changes it', () => {
  const log = createTakeLog(NONE);
  log.look(screen([line(1)]), 0);
  log.look(screen([line(1), line(2)]), 900);
  expect(log.taken(asItIs).flatMap((event) => (event.kind === 'draw' ? event.shape.id : []))).toEqual([shapeId(2)]);
});

test('once it is changed or deleted, the log tells how it looked at the beginning, and when it changed', () => {
  const log = createTakeLog(NONE);
  log.look(screen([line(1, 10), line(2, 50)]), 0);
  log.look(screen([line(1, 30), line(2, 50)]), 900);
  log.look(screen([line(1, 30)]), 1800);
  const events = log.taken(asItIs);
  expect(seenAfter(events, 899)).toEqual([line(1, 10), line(2, 50)]);
  expect(seenAfter(events, 1799)).toEqual([line(1, 30), line(2, 50)]);
  expect(seenAfter(events)).toEqual([line(1, 30)]);
});

test('a body point is there from when it was placed, also after it was moved or taken away; one of before only once a hand moves it', () => {
  const at = (x: number, point: TalkPoint['point'] = 'tailbone'): TalkPoint => ({
    ...{ which: 'now', view: 'down-the-line', frame: frame(4), point, place: { x, y: 7, hidden: false } },
  });
  const log = createTakeLog(NONE);
  log.look({ ...screen([]), points: [at(1, 'ball'), at(2, 'neck-base')] }, 0);
  log.look({ ...screen([]), points: [at(1, 'ball'), at(2, 'neck-base'), at(5)] }, 900);
  log.look({ ...screen([]), points: [at(1, 'ball'), at(3, 'neck-base'), at(6)] }, 1800);
  log.look({ ...screen([]), points: [at(1, 'ball'), at(3, 'neck-base')] }, 2700);
  const events = log.taken(asItIs).toSorted((one, other) => one.at - other.at);
  const placed = (until: number) =>
    events
      .filter((event) => event.at <= until)
      .reduce(after, NOTHING_SHOWN)
      .points.map(({ point, place }) => `${point} ${String(place.x)}`)
      .toSorted();
  expect([0, 900, 1800, 2700].map(placed)).toEqual([
    ['neck-base 2'],
    ['neck-base 2', 'tailbone 5'],
    ['neck-base 3', 'tailbone 6'],
    ['neck-base 3'],
  ]);
});

test('what an earlier take drew is a drawing from the beginning on', () => {
  const log = createTakeLog(new Set([shapeId(1)]));
  log.look(screen([line(1), line(2)]), 0);
  expect(seenAfter(log.taken(asItIs), 0)).toEqual([line(1)]);
});

test('events are handed over once, never go back in time, and begin with pictures at 0', () => {
  const log = createTakeLog(NONE);
  log.look({ ...screen([]), panes: [] }, 0);
  log.look(screen([]), 40);
  log.look(screen([], 5), 900);
  log.look(screen([], 6), 880);
  const events = log.taken(asItIs);
  expect(events[0]).toMatchObject({ at: 0, kind: 'show' });
  expect(events.filter(({ kind }) => kind === 'frame').map(({ at }) => at)).toEqual([900, 900]);
  expect(log.taken(asItIs)).toEqual([]);
});

test('the time of what happened is asked when it is handed over, and what came after `until` waits', () => {
  const log = createTakeLog(NONE);
  log.look(screen([]), 100);
  log.look(screen([], 5), 900);
  log.look(screen([], 6), 1700);
  const frames = (events: readonly TalkEvent[]) => events.filter(({ kind }) => kind === 'frame').map(({ at }) => at);
  expect(frames(log.taken((instant) => instant - 300, 1000))).toEqual([600]);
  // A clock that is corrected turns nothing round.
  expect(frames(log.taken((instant) => instant - 1200))).toEqual([600]);
});
