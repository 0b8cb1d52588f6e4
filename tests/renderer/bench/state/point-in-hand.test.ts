import { beforeEach, describe, expect, test } from 'vitest';
import type { BodyPointId } from '../../../../core/model/body-points.ts';
import type { FrameMarks } from '../../../../core/model/mark.ts';
import {
  askForPoint,
  chooseTool,
  keptMarks,
  openBench,
  pointAskedFor,
  select,
  sendToTool,
} from '../../../../renderer/bench/state/bench-actions.ts';
import { app, setApp, setBench } from '../../../../renderer/shell/state/app-state.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { WRITTEN, controlProgram } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

/** A placed point that is pressed in the list of points is the one in hand. */

const REACH = 8;
const CENTRE = { x: 50, y: 25 };
const placed = (x: number, y: number) => ({ x, y, hidden: false });
const MARKS: FrameMarks = {
  frame: { index: 1, pts: 1 },
  points: { 'lead-hip': placed(10, 10), 'trail-hip': placed(60, 40) },
  shapes: [],
};

beforeEach(() => {
  controlProgram((name) => (name === 'edit/write' ? Promise.resolve({ ok: true, value: WRITTEN }) : null));
  const swing = swingOf('a', [{ ...clipOf('x'), marks: [MARKS] }]);
  setApp({ swing, then: null, indexes: { x: indexOf(4) }, bench: null, history: emptyHistory() });
  openBench('x', 1);
  setBench({ picture: 'exact' });
  chooseTool('points');
});

const points = () => keptMarks(app.get())?.points ?? {};
const asked = () => pointAskedFor(app.get());
function press(type: 'down' | 'move' | 'up', x: number, y: number): void {
  sendToTool({ type, at: { x, y } }, REACH, CENTRE);
}
function click(x: number, y: number): void {
  for (const type of ['down', 'up'] as const) press(type, x, y);
}
const esc = () => sendToTool({ type: 'cancel' }, REACH, CENTRE);

describe('a placed point that was pressed in the list', () => {
  test('is moved by the next click, and the run then goes on with what is missing', () => {
    const first = asked();
    askForPoint('lead-hip');
    expect([asked(), app.get().bench?.selected]).toEqual(['lead-hip', { kind: 'point', point: 'lead-hip' }]);
    click(30, 20);
    expect(points()).toEqual({ 'lead-hip': placed(30, 20), 'trail-hip': placed(60, 40) });
    expect(asked()).not.toBe('lead-hip');
    click(70, 30);
    expect(Object.keys(points())).toHaveLength(3);
    expect(first).not.toBe('lead-hip');
  });

  test('is moved also onto another point, or a little beside its own place', () => {
    askForPoint('lead-hip');
    click(61, 41);
    expect(points()).toEqual({ 'lead-hip': placed(61, 41), 'trail-hip': placed(60, 40) });
    askForPoint('trail-hip');
    click(62, 42);
    expect(points()).toEqual({ 'lead-hip': placed(61, 41), 'trail-hip': placed(62, 42) });
  });

  test('stays in hand while it is said to be hidden, and stays hidden where it is moved', () => {
    askForPoint('lead-hip');
    sendToTool({ type: 'key', key: 'h' }, REACH, CENTRE);
    expect(asked()).toBe('lead-hip');
    click(30, 20);
    expect(points()['lead-hip']).toEqual({ x: 30, y: 20, hidden: true });
  });

  test.each([
    ['Esc', esc],
    ['Enter', () => sendToTool({ type: 'key', key: 'Enter' }, REACH, CENTRE)],
    ['“Deselect”', () => select(null)],
  ])('is given up by %s: the next click places what is asked for', (_name, giveUp) => {
    const first = asked();
    askForPoint('lead-hip');
    giveUp();
    expect([asked(), app.get().bench?.selected]).toEqual([first, null]);
    click(70, 30);
    expect(points()['lead-hip']).toEqual(placed(10, 10));
    expect(points()[first ?? 'ball']).toEqual(placed(70, 30));
  });

  test('is where it was when Esc comes in the middle of the press', () => {
    askForPoint('lead-hip');
    press('down', 30, 20);
    press('move', 31, 21);
    esc();
    expect(points()).toEqual(MARKS.points);
  });

  test('is let go where another point is dragged instead', () => {
    askForPoint('lead-hip');
    press('down', 60, 40);
    press('move', 70, 40);
    press('up', 75, 40);
    expect(points()).toEqual({ 'lead-hip': placed(10, 10), 'trail-hip': placed(75, 40) });
    expect(asked()).not.toBe('lead-hip');
  });
});

test('a point that is not placed is asked for until it is, whatever is selected meanwhile', () => {
  const wanted: BodyPointId = 'clubhead';
  askForPoint(wanted);
  select({ kind: 'point', point: 'lead-hip' });
  select(null);
  esc();
  expect(asked()).toBe(wanted);
  click(70, 30);
  expect(points()[wanted]).toEqual(placed(70, 30));
});
