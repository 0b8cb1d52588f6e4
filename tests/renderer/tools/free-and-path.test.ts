import { describe, expect, test } from 'vitest';
import { BARE, PointerScript } from './pointer-script.ts';

describe('a free line', () => {
  test('goes where the pointer went while it was pressed', () => {
    const hand = new PointerScript('free').move(1, 1).down(10, 10).move(20, 14).move(30, 10).up(40, 22).move(90, 90);
    const places = [
      { x: 10, y: 10 },
      { x: 20, y: 14 },
      { x: 30, y: 10 },
      { x: 40, y: 22 },
    ];
    expect(hand.marks.shapes).toEqual([{ kind: 'free', id: 'shape-0', places }]);
  });

  test('leaves out the trembling of the hand', () => {
    const hand = new PointerScript('free').down(10, 10).move(10.5, 10.2).move(11, 10).move(30, 10).up(30.4, 10);
    expect(hand.marks.shapes).toMatchObject([{ places: [{ x: 10 }, { x: 30 }] }]);
  });

  test('without a way is a slip', () => {
    expect(new PointerScript('free').down(10, 10).up(10.2, 10).kept).toEqual([]);
  });

  test('is cancelled while it is drawn', () => {
    const hand = new PointerScript('free').down(10, 10).move(50, 50).cancel().up(60, 60);
    expect(hand).toMatchObject({ marks: BARE, draft: null, kept: [] });
  });

  test('moves as a whole', () => {
    const drawn = new PointerScript('free').down(10, 10).up(40, 10).marks;
    const hand = new PointerScript('move', drawn).down(25, 10).up(26.5, 8);
    expect(hand.marks.shapes).toMatchObject([
      {
        places: [
          { x: 11.5, y: 8 },
          { x: 41.5, y: 8 },
        ],
      },
    ]);
  });
});

describe('a path', () => {
  test('takes one place a frame, and each brings the next frame', () => {
    const hand = new PointerScript('path').click({ x: 10, y: 20 }).click({ x: 30, y: 25.5 }).click({ x: 60, y: 22 });
    expect(hand.gone).toBe(3);
    expect(hand.marks.shapes).toEqual([
      {
        kind: 'path',
        id: 'shape-0',
        subject: 'clubhead',
        places: [
          { x: 10, y: 20, pts: 1536 },
          { x: 30, y: 25.5, pts: 1537 },
          { x: 60, y: 22, pts: 1538 },
        ],
      },
    ]);
    expect(hand.kept).toHaveLength(3);
  });

  test('goes back a frame by Backspace; the place there is put anew, or taken and moved, and then the frame stays', () => {
    const hand = new PointerScript('path').click({ x: 10, y: 20 }).click({ x: 30, y: 25 });
    hand.key('Backspace').click({ x: 200, y: 100 });
    expect(hand.path()?.places[1]).toEqual({ x: 200, y: 100, pts: 1537 });
    expect(hand.gone).toBe(1);
    hand.down(203, 101).move(220, 110).up(213, 111);
    expect(hand.path()?.places[1]).toEqual({ x: 210, y: 110, pts: 1537 });
    expect(hand.gone).toBe(1);
  });

  test('keeps the order of its frames, whichever is placed first', () => {
    const hand = new PointerScript('path');
    hand.gone = 5;
    hand.click({ x: 50, y: 50 });
    hand.gone = 2;
    hand.click({ x: 20, y: 20 });
    expect(hand.path()?.places.map(({ pts }) => pts)).toEqual([1538, 1541]);
  });

  test('loses its place on this frame by Delete, and with the last place itself', () => {
    const hand = new PointerScript('path').click({ x: 10, y: 20 }).click({ x: 30, y: 25 });
    hand.key('Delete');
    expect(hand.path()?.places).toHaveLength(2);
    hand.key('Backspace').key('Delete');
    expect(hand.path()?.places).toEqual([{ x: 10, y: 20, pts: 1536 }]);
    hand.key('Backspace').key('Delete');
    expect(hand.marks).toEqual(BARE);
  });

  test('is cancelled while a place is held: the path and the frame stay', () => {
    const hand = new PointerScript('path').click({ x: 10, y: 20 }).down(30, 30).move(35, 35).cancel().up(35, 35);
    expect(hand.path()?.places).toHaveLength(1);
    expect(hand.gone).toBe(1);
  });
});
