import { describe, expect, test } from 'vitest';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import { pick } from '../../../renderer/tools/pick.ts';
import { shifted } from '../../../core/shapes/places.ts';
import { handlesOf } from '../../../renderer/tools/target.ts';
import { within } from '../../support/within.ts';
import { TOOLS } from '../../../renderer/tools/tool.ts';
import { BARE, PointerScript } from './pointer-script.ts';

const LINE: Shape = { kind: 'line', id: 'l', a: { x: 0, y: 0 }, b: { x: 100, y: 0 }, role: null, lengthMm: null };
const BOX: Shape = { kind: 'box', id: 'b', x: 200, y: 100, width: 60, height: 40, role: 'head-box' };
const CIRCLE: Shape = { kind: 'circle', id: 'c', centre: { x: 400, y: 300 }, radius: 50 };
const ANGLE: Shape = { kind: 'angle', id: 'a', a: { x: 500, y: 0 }, vertex: { x: 550, y: 0 }, b: { x: 550, y: 60 } };
const MARKS: FrameMarks = {
  ...BARE,
  points: { ball: { x: 30, y: 6, hidden: false }, clubhead: { x: 36, y: 6, hidden: true } },
  shapes: [LINE, BOX, CIRCLE, ANGLE],
};

describe('picking', () => {
  test('takes the nearest of several in reach', () => {
    expect(pick(MARKS, { x: 32, y: 6 }, 8)).toEqual({ kind: 'point', point: 'ball' });
    expect(pick(MARKS, { x: 34, y: 6 }, 8)).toEqual({ kind: 'point', point: 'clubhead' });
  });

  test('takes a handle before an outline, an outline before nothing', () => {
    expect(pick(MARKS, { x: 3, y: 1 }, 8)).toEqual({ kind: 'shape', id: 'l', handle: 'a' });
    expect(pick(MARKS, { x: 60, y: 3 }, 8)).toEqual({ kind: 'shape', id: 'l', handle: null });
    expect(pick(MARKS, { x: 400, y: 352 }, 8)).toEqual({ kind: 'shape', id: 'c', handle: null });
    expect(pick(MARKS, { x: 700, y: 500 }, 8)).toBeNull();
  });
});

describe('dragging', () => {
  test('moves by the way of the pointer, wherever in reach it was taken', () => {
    const hand = new PointerScript('move', MARKS).down(32, 7).move(100, 100).up(42.125, 17.375);
    expect(hand.marks.points.ball).toEqual({ x: 40.125, y: 16.375, hidden: false });
    expect(hand.kept).toHaveLength(1);
  });

  test('there and back again leaves the place as it was, to 1e-9 px', () => {
    const hand = new PointerScript('move', MARKS);
    const [x, y] = [30.1 + 1 / 3, 6 + 1 / 7];
    hand.down(x, y).up(x + 0.7, y - 0.3);
    hand.down(x + 0.7, y - 0.3).up(x, y);
    within(hand.marks.points.ball?.x ?? Number.NaN, 30, 1e-9);
    within(hand.marks.points.ball?.y ?? Number.NaN, 6, 1e-9);
  });

  test('a click selects and keeps nothing', () => {
    const hand = new PointerScript('move', MARKS).click({ x: 60, y: 0 });
    expect(hand.kept).toEqual([]);
    expect(hand.selected).toEqual({ kind: 'shape', id: 'l', handle: null });
  });

  test('any shape by its outline moves every handle alike', () => {
    for (const shape of MARKS.shapes) {
      const hand = new PointerScript('move', { ...MARKS, points: {} });
      hand.selected = { kind: 'shape', id: shape.id, handle: null };
      hand.nudge(1, 0).nudge(0, 0.1);
      const moved = hand.marks.shapes.find((each) => each.id === shape.id);
      const expected = handlesOf(shape).map((handle) => ({ ...handle, at: shifted(handle.at, { x: 1, y: 0.1 }) }));
      expect(moved === undefined ? [] : handlesOf(moved)).toEqual(expected);
    }
  });

  test('a box corner leaves the opposite corner, also when pulled across it', () => {
    const hand = new PointerScript('move', MARKS).down(200, 100).up(300, 180);
    expect(hand.marks.shapes.find((shape) => shape.id === 'b')).toEqual({
      ...BOX,
      x: 260,
      y: 140,
      width: 40,
      height: 40,
    });
  });

  test('cancelled in the middle keeps nothing and shows what was', () => {
    const hand = new PointerScript('move', MARKS).down(30, 6).move(80, 80).cancel();
    expect([hand.marks, hand.draft, hand.kept]).toEqual([MARKS, null, []]);
    expect(hand.up(80, 80).kept).toEqual([]);
  });
});

describe('keys on a selected mark', () => {
  test('Delete takes it off, Escape lets it go, Enter accepts it', () => {
    const hand = new PointerScript('move', MARKS).click({ x: 30, y: 6 });
    expect(hand.key('Enter').selected).toBeNull();
    hand.click({ x: 30, y: 6 }).key('Delete');
    expect(Object.keys(hand.marks.points)).toEqual(['clubhead']);
  });

  test.each(TOOLS)('%s leaves the arrow keys for stepping frames, also with a mark selected', (tool) => {
    for (const selected of [null, { kind: 'point', point: 'ball' }, { kind: 'shape', id: 'l', handle: 'a' }] as const)
      for (const key of ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']) {
        const hand = new PointerScript(tool, MARKS);
        hand.selected = selected;
        hand.next = 'neck-base';
        hand.starts = { 'neck-base': { x: 700, y: 300 } };
        hand.key(key);
        expect([hand.used, hand.kept, hand.marks]).toEqual([false, [], MARKS]);
      }
  });

  test('a nudge moves nothing while a gesture runs: the pointer says where things go', () => {
    const hand = new PointerScript('move', MARKS).down(30, 6).move(40, 6);
    expect(hand.nudge(0, 50).used).toBe(false);
    expect(hand.up(40, 6).marks.points.ball).toEqual({ x: 40, y: 6, hidden: false });
  });
});
