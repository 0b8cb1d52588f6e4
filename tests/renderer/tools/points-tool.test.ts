import { describe, expect, test } from 'vitest';
import { nextPoint, pointsOfView } from '../../../renderer/tools/points-tool.ts';
import { BARE, PointerScript } from './pointer-script.ts';

test('a run places every point of the view in order, one press each', () => {
  const hand = new PointerScript('points');
  const run = pointsOfView('down-the-line', 'address');
  for (const [place] of run.entries()) {
    hand.next = nextPoint(run, hand.marks, null);
    hand
      .down(50 * place, 100.5)
      .move(50 * place + 1, 101)
      .up(50 * place + 1.25, 101.5);
  }
  expect(Object.keys(hand.marks.points)).toEqual(run);
  expect(hand.marks.points[run[2] ?? 'ball']).toEqual({ x: 101.25, y: 101.5, hidden: false });
  expect(nextPoint(run, hand.marks, null)).toBeNull();
});

test('after a chosen point the run goes on behind it and comes round to what was left out', () => {
  const run = pointsOfView('face-on', 'address');
  expect(nextPoint(run, BARE, 'clubhead')).toBe('ball');
  expect(nextPoint(run, BARE, 'ball')).toBe('head-centre');
});

test('at top the shoulders come first, which are read against the spine of address; no point comes twice or is left out', () => {
  const run = pointsOfView('down-the-line', 'top');
  expect(run.slice(0, 3)).toEqual(['lead-shoulder', 'trail-shoulder', 'head-centre']);
  expect(run.toSorted()).toEqual(pointsOfView('down-the-line', null).toSorted());
});

test('a drag that begins near a placed point moves that one instead of placing another', () => {
  const hand = new PointerScript('points', { ...BARE, points: { ball: { x: 10, y: 10, hidden: true } } });
  hand.next = 'clubhead';
  hand.down(12, 10).up(22, 10);
  expect(hand.marks.points).toEqual({ ball: { x: 20, y: 10, hidden: true } });
});

test('a click near a placed point, or on it, places the one that is asked for: joints lie on top of each other', () => {
  const hand = new PointerScript('points', { ...BARE, points: { 'lead-hip': { x: 10, y: 10, hidden: false } } });
  hand.next = 'trail-hip';
  hand.down(12, 10).move(12.5, 10.5).up(13, 10.25);
  expect(hand.marks.points).toEqual({
    'lead-hip': { x: 10, y: 10, hidden: false },
    'trail-hip': { x: 13, y: 10.25, hidden: false },
  });
  expect(hand.kept).toHaveLength(1);
});

test('with nothing asked for a click on a placed point selects it', () => {
  const hand = new PointerScript('points', { ...BARE, points: { ball: { x: 10, y: 10, hidden: false } } });
  hand.click({ x: 11, y: 10 });
  expect(hand.selected).toEqual({ kind: 'point', point: 'ball' });
  expect(hand.kept).toEqual([]);
});

test('cancel while placing keeps nothing, and the same point is asked for again', () => {
  const hand = new PointerScript('points');
  hand.next = 'tailbone';
  hand.down(10, 10).move(20, 20);
  expect(hand.draft?.points.tailbone).toEqual({ x: 20, y: 20, hidden: false });
  hand.cancel().up(20, 20);
  expect([hand.marks, hand.kept]).toEqual([BARE, []]);
});

test('Enter places by keys alone in the middle of the view, nudges bring it to its place', () => {
  const hand = new PointerScript('points');
  hand.next = 'neck-base';
  hand.key('Enter').nudge(-1, 0).nudge(0, -0.1);
  expect(hand.marks.points['neck-base']).toEqual({ x: 499, y: 299.9, hidden: false });
});

test('with all points placed a press on nothing keeps nothing', () => {
  expect(new PointerScript('points').down(5, 5).up(5, 5).kept).toEqual([]);
});

test('what is accepted where it was proposed tells so until a hand moves it', () => {
  const hand = new PointerScript('points');
  hand.starts = { tailbone: { x: 300, y: 410, guess: 6 } };
  hand.next = 'tailbone';
  hand.key('Enter');
  expect(hand.marks.points.tailbone).toEqual({ x: 300, y: 410, hidden: false, guess: 6 });
  hand.next = null;
  hand.down(300, 410).move(320, 410).up(320, 410);
  expect(hand.marks.points.tailbone).toEqual({ x: 320, y: 410, hidden: false });

  const clicked = new PointerScript('points');
  clicked.starts = { tailbone: { x: 300, y: 410, guess: 6 } };
  clicked.next = 'tailbone';
  expect(clicked.click({ x: 301, y: 411 }).marks.points.tailbone).toEqual({ x: 301, y: 411, hidden: false });
});

describe('from where a point stood on the frame before', () => {
  const starts = { tailbone: { x: 300.25, y: 410 }, 'neck-base': { x: 330, y: 260 } };
  const asking = (next: 'tailbone' | 'neck-base') => {
    const hand = new PointerScript('points');
    hand.starts = starts;
    hand.next = next;
    return hand;
  };

  test('Enter alone accepts it, and nothing is left selected: the next Enter is for the next point', () => {
    const hand = asking('neck-base').key('Enter');
    expect(hand.marks.points['neck-base']).toEqual({ x: 330, y: 260, hidden: false });
    expect(hand.selected).toBeNull();
    hand.next = 'tailbone';
    expect(Object.keys(hand.key('Enter').marks.points)).toEqual(['neck-base', 'tailbone']);
  });

  test('a nudge puts it there and one step on; then Enter lets go', () => {
    const hand = asking('tailbone').nudge(1, 0).nudge(0, 0.1);
    expect(hand.marks.points.tailbone).toEqual({ x: 301.25, y: 410.1, hidden: false });
    expect(hand.key('Enter').selected).toBeNull();
    expect(hand.kept).toHaveLength(2);
  });

  test('a drag that begins within reach of it takes the point along by the way the pointer went, without a jump', () => {
    const hand = asking('tailbone').down(303.25, 414);
    expect(hand.draft?.points.tailbone).toEqual({ x: 300.25, y: 410, hidden: false });
    hand.move(310.25, 414);
    expect(hand.draft?.points.tailbone).toEqual({ x: 307.25, y: 410, hidden: false });
    hand.up(313.25, 409);
    expect(hand.marks.points).toEqual({ tailbone: { x: 310.25, y: 405, hidden: false } });
    expect(hand.selected).toEqual({ kind: 'point', point: 'tailbone' });
    expect(hand.kept).toHaveLength(1);
  });

  test('a click within reach of it places where it was clicked, and not at the start', () => {
    const hand = asking('tailbone').click({ x: 303.25, y: 414.125 });
    expect(hand.marks.points.tailbone).toEqual({ x: 303.25, y: 414.125, hidden: false });
  });

  test('a press beyond its reach puts the point under the pointer, as does one near the start of another point', () => {
    const beyond = asking('tailbone').down(309.25, 410);
    expect(beyond.draft?.points.tailbone).toEqual({ x: 309.25, y: 410, hidden: false });
    const other = asking('tailbone').down(332, 260);
    expect(other.draft?.points.tailbone).toEqual({ x: 332, y: 260, hidden: false });
  });

  test('of a placed point and the start the nearer one is taken; where they are as near, the one that is asked for', () => {
    const press = (placed: { x: number; y: number }) => {
      const hand = new PointerScript('points', { ...BARE, points: { 'lead-hip': { ...placed, hidden: false } } });
      hand.starts = starts;
      hand.next = 'tailbone';
      hand.down(303.25, 410).move(320.25, 410).up(323.25, 410);
      return hand.marks.points;
    };
    expect(press({ x: 304.25, y: 410 })).toEqual({ 'lead-hip': { x: 324.25, y: 410, hidden: false } });
    expect(press({ x: 308.25, y: 410 })).toMatchObject({ 'lead-hip': { x: 308.25 }, tailbone: { x: 320.25 } });
    expect(press(starts.tailbone)).toMatchObject({ 'lead-hip': { x: 300.25 }, tailbone: { x: 320.25 } });
  });

  test('cancel while the start is held keeps nothing, and it stays where it was', () => {
    const hand = asking('tailbone').down(303, 410).move(350, 450).cancel().up(350, 450);
    expect([hand.marks, hand.kept, hand.draft]).toEqual([BARE, [], null]);
    expect(hand.down(300.25, 410).draft?.points.tailbone).toMatchObject(starts.tailbone);
  });

  test('it is no placed point before that: nothing is kept', () => {
    expect(asking('tailbone').move(300, 410).kept).toEqual([]);
    expect(asking('tailbone').marks.points).toEqual({});
  });
});

describe('Backspace in the run', () => {
  const placed = { x: 10, y: 10, hidden: false };

  test('takes the point that was just placed away', () => {
    const hand = new PointerScript('points');
    hand.next = 'neck-base';
    hand.click({ x: 50, y: 60 }).key('Backspace');
    expect(hand.marks.points).toEqual({});
    expect(hand.asked).toBe('neck-base');
  });

  test('with none selected the last one before the one that is asked for', () => {
    const hand = new PointerScript('points', { ...BARE, points: { 'head-centre': placed, 'neck-base': placed } });
    hand.next = 'tailbone';
    hand.key('Backspace');
    expect(Object.keys(hand.marks.points)).toEqual(['head-centre']);
    expect(hand.asked).toBe('neck-base');
  });

  test('goes back in the order of the run at that checkpoint', () => {
    const shoulders = { 'lead-shoulder': placed, 'trail-shoulder': placed };
    const hand = new PointerScript('points', { ...BARE, points: shoulders });
    hand.run = pointsOfView('down-the-line', 'top');
    hand.next = 'head-centre';
    hand.key('Backspace');
    expect(hand.asked).toBe('trail-shoulder');
  });

  test('at the beginning means nothing', () => {
    const hand = new PointerScript('points');
    hand.next = 'head-centre';
    expect(hand.key('Backspace').used).toBe(false);
  });
});

test('H says of the selected point that its place is a guess, and takes that back', () => {
  const hand = new PointerScript('points');
  hand.next = 'trail-hip';
  hand.click({ x: 50, y: 60 }).key('h');
  expect(hand.marks.points['trail-hip']?.hidden).toBe(true);
  expect(hand.key('h').marks.points['trail-hip']?.hidden).toBe(false);
});

describe('the dashed ring of a proposed point', () => {
  const rings = { 'lead-hip': { x: 10, y: 10, guess: 4 }, 'lead-knee': { x: 40, y: 60, guess: 4 } };
  const placed = (hand: PointerScript) => hand.marks.points;

  test('that is not asked for is dragged right at once; a click beside it places what is asked for', () => {
    const hand = new PointerScript('points');
    [hand.next, hand.starts] = ['lead-hip', rings];
    hand.down(42, 60).move(60, 60).up(72, 65);
    expect(placed(hand)).toEqual({ 'lead-knee': { x: 70, y: 65, hidden: false } });
    hand.click({ x: 41, y: 61 });
    expect(placed(hand)['lead-hip']).toEqual({ x: 41, y: 61, hidden: false });
  });

  test('is dragged with no tool in hand where it shows, and nowhere else; a placed point that is nearer goes first', () => {
    const hand = new PointerScript('move');
    hand.starts = rings;
    hand.down(42, 60).up(72, 65);
    expect(placed(hand)).toEqual({});
    hand.offered = rings;
    hand.down(42, 60).up(72, 65);
    expect(placed(hand)).toEqual({ 'lead-knee': { x: 70, y: 65, hidden: false } });
    hand.marks = { ...hand.marks, points: { ball: { x: 13, y: 10, hidden: false } } };
    hand.state = { tool: 'move', name: 'idle' };
    hand.down(13, 11).up(23, 11);
    expect(placed(hand)).toEqual({ ball: { x: 23, y: 10, hidden: false } });
  });

  test('that was only where the point stood before is none to take', () => {
    const hand = new PointerScript('move');
    hand.starts = { 'lead-knee': { x: 40, y: 60 } };
    hand.offered = hand.starts;
    hand.down(42, 60).up(72, 65);
    expect(placed(hand)).toEqual({});
  });
});
