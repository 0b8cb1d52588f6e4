import { describe, expect, test } from 'vitest';
import { BARE, PointerScript } from './pointer-script.ts';
import { within } from '../../support/within.ts';

const [A, B, C] = [
  { x: 200, y: 100 },
  { x: 100, y: 200 },
  { x: 0, y: 100 },
] as const;

describe('a circle clicked on its edge', () => {
  test('goes through three places, and is kept with them', () => {
    const hand = new PointerScript('circle').click(A).click(B).click(C).key('Enter');
    expect(hand.kept).toHaveLength(1);
    const [circle] = hand.marks.shapes;
    if (circle?.kind !== 'circle') throw new Error('no circle');
    within(circle.centre.x, 100, 1e-9);
    within(circle.centre.y, 100, 1e-9);
    within(circle.radius, 100, 1e-9);
    expect(circle.rim).toEqual([A, B, C]);
    expect(hand.selected).toEqual({ kind: 'shape', id: 'shape-0', handle: null });
    expect(hand.state).toEqual({ tool: 'circle', name: 'idle' });
  });

  test('shows itself before it is kept, also with the place under the pointer', () => {
    const hand = new PointerScript('circle').click(A).click(B).move(0, 100);
    expect(hand.draft?.shapes.at(-1)).toMatchObject({ kind: 'circle', rim: [A, B, C] });
    expect(hand.kept).toEqual([]);
  });

  test('takes more places than three, and comes nearest to all', () => {
    const hand = new PointerScript('circle').click(A).click(B).click(C).click({ x: 100, y: 4 }).key('Enter');
    const [circle] = hand.marks.shapes;
    if (circle?.kind !== 'circle') throw new Error('no circle');
    expect(circle.rim).toHaveLength(4);
    expect(circle.radius).toBeGreaterThan(96);
    expect(circle.radius).toBeLessThan(100);
  });

  test('ends with a second click on the last place, for those without keys', () => {
    const hand = new PointerScript('circle').click(A).click(B).click(C).click({ x: 3, y: 102 });
    expect(hand.kept).toHaveLength(1);
    expect(hand.marks.shapes[0]).toMatchObject({ rim: [A, B, C] });
  });

  test('takes a place where the press is let go, not where it began', () => {
    const hand = new PointerScript('circle').click(A).click(B).down(30, 30).move(10, 90).up(0, 100).key('Enter');
    expect(hand.marks.shapes[0]).toMatchObject({ rim: [A, B, C] });
  });

  test('goes back one by Backspace, to nothing in the end', () => {
    const hand = new PointerScript('circle').click(A).click({ x: 400, y: 400 }).key('Backspace').click(B).click(C);
    hand.key('Enter');
    expect(hand.marks.shapes[0]).toMatchObject({ rim: [A, B, C] });
    expect(new PointerScript('circle').click(A).key('Backspace').state).toEqual({ tool: 'circle', name: 'idle' });
  });

  test('is not kept with fewer places than three, nor with places on a line: the coach may click on', () => {
    const few = new PointerScript('circle').click(A).click(B).key('Enter');
    expect(few.kept).toEqual([]);
    expect(few.state).toMatchObject({ name: 'collecting' });
    const line = new PointerScript('circle').click({ x: 0, y: 0 }).click({ x: 50, y: 50 }).click({ x: 90, y: 90 });
    line.key('Enter');
    expect(line.kept).toEqual([]);
    line.click({ x: 90, y: 0 }).key('Enter');
    expect(line.kept).toHaveLength(1);
  });

  test('is cancelled at every step without a trace', () => {
    const steps: ((hand: PointerScript) => PointerScript)[] = [
      (hand) => hand.down(200, 100),
      (hand) => hand.up(200, 100),
      (hand) => hand.move(100, 200),
      (hand) => hand.down(100, 200),
      (hand) => hand.up(100, 200),
      (hand) => hand.click(C),
    ];
    for (let count = 1; count <= steps.length; count += 1) {
      const hand = steps.slice(0, count).reduce((all, step) => step(all), new PointerScript('circle'));
      hand.cancel();
      expect(hand).toMatchObject({ marks: BARE, draft: null, state: { tool: 'circle', name: 'idle' }, kept: [] });
    }
  });
});

test('a place on the edge can be taken: the circle is fitted anew', () => {
  const drawn = new PointerScript('circle').click(A).click(B).click(C).key('Enter').marks;
  const hand = new PointerScript('move', drawn).down(100, 200).move(100, 150).up(100, 250);
  const [circle] = hand.marks.shapes;
  if (circle?.kind !== 'circle') throw new Error('no circle');
  expect(circle.rim?.[1]).toEqual({ x: 100, y: 250 });
  // Through (0, 100), (200, 100), (100, 250): the middle at y with 100² + (y - 100)² = (250 - y)².
  within(circle.centre.x, 100, 1e-9);
  within(Math.hypot(100, 100 - circle.centre.y), circle.radius, 1e-9);
  within(250 - circle.centre.y, circle.radius, 1e-9);
});
