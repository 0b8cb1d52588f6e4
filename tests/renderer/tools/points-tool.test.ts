import { expect, test } from 'vitest';
import { nextPoint, pointsOfView } from '../../../renderer/tools/points-tool.ts';
import { BARE, PointerScript } from './pointer-script.ts';

test('a run places every point of the view in order, one press each', () => {
  const hand = new PointerScript('points');
  const run = pointsOfView('down-the-line');
  for (const [place] of run.entries()) {
    hand.next = nextPoint('down-the-line', hand.marks, null);
    hand
      .down(50 * place, 100.5)
      .move(50 * place + 1, 101)
      .up(50 * place + 1.25, 101.5);
  }
  expect(Object.keys(hand.marks.points)).toEqual(run);
  expect(hand.marks.points[run[2] ?? 'ball']).toEqual({ x: 101.25, y: 101.5, hidden: false });
  expect(nextPoint('down-the-line', hand.marks, null)).toBeNull();
});

test('after a chosen point the run goes on behind it and comes round to what was left out', () => {
  expect(nextPoint('face-on', BARE, 'clubhead')).toBe('ball');
  expect(nextPoint('face-on', BARE, 'ball')).toBe('head-centre');
});

test('a press near a placed point takes that one instead of placing another', () => {
  const hand = new PointerScript('points', { ...BARE, points: { ball: { x: 10, y: 10, hidden: true } } });
  hand.next = 'clubhead';
  hand.down(12, 10).up(22, 10);
  expect(hand.marks.points).toEqual({ ball: { x: 20, y: 10, hidden: true } });
});

test('cancel while placing keeps nothing, and the same point is asked for again', () => {
  const hand = new PointerScript('points');
  hand.next = 'tailbone';
  hand.down(10, 10).move(20, 20);
  expect(hand.draft?.points.tailbone).toEqual({ x: 20, y: 20, hidden: false });
  hand.cancel().up(20, 20);
  expect([hand.marks, hand.kept]).toEqual([BARE, []]);
});

test('Enter places by keys alone in the middle of the view, arrows bring it to its place', () => {
  const hand = new PointerScript('points');
  hand.next = 'neck-base';
  hand.key('Enter').key('ArrowLeft').key('ArrowUp', true);
  expect(hand.marks.points['neck-base']).toEqual({ x: 499, y: 299.9, hidden: false });
});

test('with all points placed a press on nothing keeps nothing', () => {
  expect(new PointerScript('points').down(5, 5).up(5, 5).kept).toEqual([]);
});
