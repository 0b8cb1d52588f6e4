import { expect, test } from 'vitest';
import { besideThePointer } from '../../../renderer/tools/place-in-hand.ts';
import { BARE, PointerScript } from './pointer-script.ts';

const NONE = { x: 0, y: 0 };

test('a point or handle that was taken beside its middle is held there, however far it is dragged', () => {
  const marks = {
    ...BARE,
    points: { ball: { x: 10, y: 10, hidden: false } },
    shapes: [
      { kind: 'line', id: 'l', a: { x: 100, y: 100 }, b: { x: 200, y: 100 }, role: null, lengthMm: null },
    ] as const,
  };
  const point = new PointerScript('move', marks).down(13, 11).move(80, 90);
  expect(besideThePointer(point.state, marks)).toEqual({ x: -3, y: -1 });
  const end = new PointerScript('move', marks).down(98, 103).move(40, 40);
  expect(besideThePointer(end.state, marks)).toEqual({ x: 2, y: -3 });
  const whole = new PointerScript('move', marks).down(150, 101).move(160, 120);
  expect(besideThePointer(whole.state, marks)).toEqual(NONE);
});

test('a start or a place of a path likewise', () => {
  const run = new PointerScript('points');
  run.starts = { tailbone: { x: 300, y: 410 } };
  run.next = 'tailbone';
  expect(besideThePointer(run.down(303, 406).move(320, 400).state, BARE)).toEqual({ x: -3, y: 4 });
  const path = new PointerScript('path').click({ x: 10, y: 20 }).key('Backspace').down(12, 21).move(50, 50);
  expect(besideThePointer(path.state, path.marks)).toEqual({ x: -2, y: -1 });
});

test('what is placed under the pointer, drawn, or not held at all is at the pointer', () => {
  const run = new PointerScript('points');
  run.next = 'ball';
  expect(besideThePointer(run.state, BARE)).toEqual(NONE);
  expect(besideThePointer(run.down(5, 5).state, BARE)).toEqual(NONE);
  expect(besideThePointer(new PointerScript('line').down(5, 5).move(9, 9).state, BARE)).toEqual(NONE);
});
