import { describe, expect, test } from 'vitest';
import { SHAPE_KINDS, isKindBy } from '../../../core/shapes/shapes.ts';
import { BARE, PointerScript } from './pointer-script.ts';

describe('a line', () => {
  const line = {
    kind: 'line',
    id: 'shape-0',
    a: { x: 10.25, y: 20.5 },
    b: { x: 110.125, y: 70 },
    role: null,
    lengthMm: null,
  };

  test('dragged has its ends exactly where the pointer went down and up', () => {
    const hand = new PointerScript('line').down(10.25, 20.5).move(60, 40).up(110.125, 70);
    expect(hand.marks).toEqual({ ...BARE, shapes: [line] });
    expect(hand.selected).toEqual({ kind: 'shape', id: 'shape-0', handle: null });
    expect(hand.state).toEqual({ tool: 'line', name: 'idle' });
  });

  test('clicked end after end is the same line', () => {
    const hand = new PointerScript('line').click({ x: 10.25, y: 20.5 }).move(50, 50).click({ x: 110.125, y: 70 });
    expect(hand.marks).toEqual({ ...BARE, shapes: [line] });
  });

  test('shows a draft while it follows, and keeps nothing before it is whole', () => {
    const hand = new PointerScript('line').click({ x: 10, y: 10 }).move(60, 60);
    expect(hand.draft?.shapes).toHaveLength(1);
    expect(hand.kept).toEqual([]);
  });

  test('with both ends on one place is not kept', () => {
    const hand = new PointerScript('line').click({ x: 10, y: 10 }).click({ x: 10.2, y: 10.2 });
    expect(hand.kept).toEqual([]);
    expect(hand.state).toMatchObject({ name: 'following' });
  });
});

test('a box has its upper left corner and size whichever way it was dragged', () => {
  const ways = [
    [10, 20, 50, 80],
    [50, 80, 10, 20],
    [50, 20, 10, 80],
  ] as const;
  for (const [x1, y1, x2, y2] of ways) {
    const hand = new PointerScript('box').down(x1, y1).up(x2, y2);
    expect(hand.marks.shapes).toEqual([
      { kind: 'box', id: 'shape-0', x: 10, y: 20, width: 40, height: 60, role: null },
    ]);
  }
});

test('a circle has its middle at the press and its edge at the release', () => {
  const hand = new PointerScript('circle')
    .down(100, 100)
    .move(110, 100)
    .up(103, 104 + 16);
  expect(hand.marks.shapes).toEqual([
    { kind: 'circle', id: 'shape-0', centre: { x: 100, y: 100 }, radius: Math.hypot(3, 20) },
  ]);
});

describe('an angle', () => {
  const angle = { kind: 'angle', id: 'shape-0', a: { x: 0, y: 0 }, vertex: { x: 100, y: 0 }, b: { x: 100, y: 90 } };

  test('is drawn arm end, corner, arm end by clicks', () => {
    const hand = new PointerScript('angle').click(angle.a).click(angle.vertex).click(angle.b);
    expect(hand.marks.shapes).toEqual([angle]);
  });

  test('or by dragging its first arm and clicking the second', () => {
    const hand = new PointerScript('angle').down(0, 0).move(50, 0).up(100, 0).move(100, 40).click(angle.b);
    expect(hand.marks.shapes).toEqual([angle]);
  });
});

describe('cancel', () => {
  test.each(SHAPE_KINDS.filter((name) => isKindBy('drawn', name)))(
    'at every step of %s keeps nothing and leaves the tool idle',
    (tool) => {
      const steps: readonly ((hand: PointerScript) => unknown)[] = [
        (hand) => hand.down(10, 10),
        (hand) => hand.move(40, 10),
        (hand) => hand.up(10.5, 10),
        (hand) => hand.move(90, 30),
        (hand) => hand.down(100, 30),
      ];
      for (let until = 1; until <= steps.length; until += 1) {
        const hand = new PointerScript(tool);
        for (const step of steps.slice(0, until)) step(hand);
        hand.cancel();
        expect([hand.state, hand.draft, hand.marks, hand.kept]).toEqual([{ tool, name: 'idle' }, null, BARE, []]);
        // A button that is let go after the cancel draws nothing.
        expect(hand.up(120, 40).kept).toEqual([]);
      }
    },
  );

  test('with no gesture lets the selection go, and then is free for others', () => {
    const hand = new PointerScript('line').down(0, 0).up(50, 50);
    expect(hand.cancel().selected).toBeNull();
    expect(hand.cancel().used).toBe(false);
  });
});

describe('with the tool in hand', () => {
  const drawn = () => new PointerScript('line').down(0, 0).up(50, 50);

  test('a handle of the shape that was just drawn is taken, not a new shape begun', () => {
    const hand = drawn().down(51, 49).move(60, 40).up(70, 30);
    expect(hand.marks.shapes).toMatchObject([{ id: 'shape-0', a: { x: 0, y: 0 }, b: { x: 69, y: 31 } }]);
  });

  test('a press elsewhere, or once it is let go of, draws the next one', () => {
    expect(drawn().down(25, 25).up(90, 10).marks.shapes).toHaveLength(2);
    expect(drawn().cancel().down(51, 49).up(90, 10).marks.shapes).toHaveLength(2);
  });
});
