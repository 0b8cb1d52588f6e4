import { describe, expect, test } from 'vitest';
import { BARE, PointerScript } from './pointer-script.ts';

const [A, B, C, D] = [
  { x: 40, y: 30 },
  { x: 400, y: 36 },
  { x: 800, y: 40 },
  { x: 1200, y: 38 },
] as const;

describe('a straight edge', () => {
  test('goes through three places or more, is shown on all frames and selected', () => {
    const hand = new PointerScript('edge').click(A).click(B).click(C).click(D).key('Enter');
    expect(hand.marks.shapes).toEqual([{ kind: 'edge', id: 'shape-0', carried: true, places: [A, B, C, D] }]);
    expect(hand.selected).toEqual({ kind: 'shape', id: 'shape-0', handle: null });
    expect(hand.state).toEqual({ tool: 'edge', name: 'idle' });
  });

  test('ends with a second click on the last place, for those without keys', () => {
    const hand = new PointerScript('edge')
      .click(A)
      .click(B)
      .click(C)
      .click({ x: C.x + 2, y: C.y - 3 });
    expect(hand.marks.shapes).toMatchObject([{ places: [A, B, C] }]);
  });

  test('of two places is straight by itself: Enter keeps nothing, the coach may click on', () => {
    const hand = new PointerScript('edge').click(A).click(B).key('Enter');
    expect(hand.kept).toEqual([]);
    expect(hand.state).toMatchObject({ name: 'collecting', places: [A, B] });
    hand.click(C).key('Enter');
    expect(hand.kept).toHaveLength(1);
  });

  test('stands beside other edges, which it leaves alone', () => {
    const first = new PointerScript('edge').click(A).click(B).click(C).key('Enter');
    const second = new PointerScript('edge', first.marks);
    second.kept.push(first.marks);
    second.click(B).click(C).click(D).key('Enter');
    expect(second.marks.shapes.map(({ id }) => id)).toEqual(['shape-0', 'shape-1']);
  });

  test('goes back one by Backspace, to nothing in the end', () => {
    const hand = new PointerScript('edge').click(A).click(D).key('Backspace').click(B).click(C).key('Enter');
    expect(hand.marks.shapes).toMatchObject([{ places: [A, B, C] }]);
    expect(new PointerScript('edge').click(A).key('Backspace').state).toEqual({ tool: 'edge', name: 'idle' });
  });

  test('is cancelled at every step without a trace', () => {
    const steps: ((hand: PointerScript) => PointerScript)[] = [A, B, C].flatMap((at) => [
      (hand: PointerScript) => hand.move(at.x, at.y),
      (hand: PointerScript) => hand.down(at.x, at.y),
      (hand: PointerScript) => hand.up(at.x, at.y),
    ]);
    for (let count = 1; count <= steps.length; count += 1) {
      const hand = steps.slice(0, count).reduce((all, step) => step(all), new PointerScript('edge'));
      hand.cancel();
      expect(hand, String(count)).toMatchObject({
        marks: BARE,
        draft: null,
        kept: [],
        state: { tool: 'edge', name: 'idle' },
      });
    }
  });

  test('can be taken by any of its places', () => {
    const drawn = new PointerScript('edge').click(A).click(B).click(C).key('Enter').marks;
    const hand = new PointerScript('move', drawn).down(B.x, B.y).move(420, 50).up(420, 50);
    expect(hand.marks.shapes).toMatchObject([{ places: [A, { x: 420, y: 50 }, C] }]);
  });
});
