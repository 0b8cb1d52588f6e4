import { expect, test } from 'vitest';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { logChanges, type TalkScene } from '../../../core/talk/log-changes.ts';
import { after, NOTHING_SHOWN, type TalkState } from '../../../core/talk/talk-state.ts';
import { seeded } from '../../support/seeded.ts';
import { frame, line, pane } from './sample-talk.ts';

const scene = (part: Partial<TalkScene> = {}): TalkScene => ({
  ...{ panes: [pane(0)], drawings: [], points: [], marks: { shown: true, readings: [] }, pointer: null },
  ...part,
});
const drawing = (id: number, x = 10) =>
  ({ which: 'now', view: 'down-the-line', frame: frame(4), shape: line(id, x) }) as const;

test('nothing happens where nothing changed, or where there is nothing to see', () => {
  expect(logChanges(scene(), scene(), 5)).toEqual([]);
  expect(logChanges(scene(), scene({ panes: [] }), 5)).toEqual([]);
});

test('a step is a frame, a zoom is a zoom, another view is shown anew', () => {
  const part = { x: 1, y: 2, width: 30, height: 40 };
  expect(logChanges(scene(), scene({ panes: [pane(7)] }), 5)).toEqual([
    { at: 5, kind: 'frame', pane: 0, frame: frame(7) },
  ]);
  expect(logChanges(scene(), scene({ panes: [pane(0, { part })] }), 5)).toEqual([
    { at: 5, kind: 'zoom', pane: 0, part },
  ]);
  const panes = [pane(0, { view: 'face-on' })];
  expect(logChanges(scene(), scene({ panes }), 5)).toEqual([{ at: 5, kind: 'show', panes }]);
});

test('the first look says all, beginning with the pictures', () => {
  const first = logChanges(null, scene({ drawings: [drawing(1)] }), 0);
  expect(first.map(({ kind }) => kind)).toEqual(['show', 'draw', 'marks']);
});

test('played back, what was logged shows what was on the screen at every look', () => {
  const random = seeded(21);
  const pick = (count: number): number => Math.floor(random() * count);
  let [before, shown]: [TalkScene | null, TalkState] = [null, NOTHING_SHOWN];
  for (let look = 0; look < 500; look++) {
    const panes = Array.from({ length: 1 + pick(2) }, (_, place) =>
      pane(pick(5), { view: place === 0 ? 'down-the-line' : 'face-on', which: pick(3) === 0 ? 'then' : 'now' }),
    );
    const drawings = [1, 2, 3].filter(() => pick(2) === 0).map((id) => drawing(id, pick(3)));
    const now = scene({
      ...{ panes, drawings, marks: { shown: pick(2) === 0, readings: [] } },
      pointer: pick(2) === 0 ? null : { pane: 0, x: pick(9), y: pick(9) },
    });
    const events: readonly TalkEvent[] = logChanges(before, now, look);
    shown = events.reduce(after, shown);
    const byId = (scene: TalkScene) => ({
      ...{ panes: scene.panes, marks: scene.marks, pointer: scene.pointer },
      drawings: scene.drawings.toSorted((one, other) => one.shape.id.localeCompare(other.shape.id)),
    });
    expect(byId(shown)).toEqual(byId(now));
    before = now;
  }
});
