import { expect, test } from 'vitest';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { after, NOTHING_SHOWN } from '../../../core/talk/talk-state.ts';
import { createTakeLog } from '../../../renderer/talk/state/take-log.ts';
import { frame, line, pane, shapeId } from '../../core/talk/sample-talk.ts';

const screen = (drawings: readonly ReturnType<typeof line>[], index = 0) => ({
  panes: [pane(index)],
  drawings: drawings.map((shape) => ({ which: 'now', view: 'down-the-line', frame: frame(4), shape }) as const),
  marks: { shown: true, readings: [] },
  pointer: null,
});
const NONE: ReadonlySet<string> = new Set();

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
  expect(log.taken().flatMap((event) => (event.kind === 'draw' ? event.shape.id : []))).toEqual([shapeId(2)]);
});

test('once it is changed or deleted, the log tells how it looked at the beginning, and when it changed', () => {
  const log = createTakeLog(NONE);
  log.look(screen([line(1, 10), line(2, 50)]), 0);
  log.look(screen([line(1, 30), line(2, 50)]), 900);
  log.look(screen([line(1, 30)]), 1800);
  const events = log.taken();
  expect(seenAfter(events, 899)).toEqual([line(1, 10), line(2, 50)]);
  expect(seenAfter(events, 1799)).toEqual([line(1, 30), line(2, 50)]);
  expect(seenAfter(events)).toEqual([line(1, 30)]);
});

test('what an earlier take drew is a drawing from the beginning on', () => {
  const log = createTakeLog(new Set([shapeId(1)]));
  log.look(screen([line(1), line(2)]), 0);
  expect(seenAfter(log.taken(), 0)).toEqual([line(1)]);
});

test('events are handed over once, never go back in time, and begin with pictures at 0', () => {
  const log = createTakeLog(NONE);
  log.look({ ...screen([]), panes: [] }, 0);
  log.look(screen([]), 40);
  log.look(screen([], 5), 900);
  log.look(screen([], 6), 880);
  const events = log.taken();
  expect(events[0]).toMatchObject({ at: 0, kind: 'show' });
  expect(events.filter(({ kind }) => kind === 'frame').map(({ at }) => at)).toEqual([900, 900]);
  expect(log.taken()).toEqual([]);
});
