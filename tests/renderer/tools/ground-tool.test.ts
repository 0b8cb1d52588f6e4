import { describe, expect, test } from 'vitest';
import type { FrameMarks, GroundShape } from '../../../core/model/mark.ts';
import { laidAnew, matPlan, sizeOf, sticksPlan } from '../../../renderer/tools/ground-plan.ts';
import type { GroundPlan } from '../../../renderer/tools/ground-plan.ts';
import { BARE, PointerScript } from './pointer-script.ts';

const [A, B, C, D, E] = [
  { x: 400, y: 300 },
  { x: 100, y: 310 },
  { x: 90, y: 200 },
  { x: 380, y: 190 },
  { x: 250, y: 260 },
] as const;
const MAT = matPlan({ along: 1500, across: 1200 });
const MEASURED: GroundPlan = {
  layout: 'measured',
  places: [0, 500, 1000, 500, 250].map((target, i) => ({ target, ball: i * 100 })),
};

function hand(plan: GroundPlan | null, marks: FrameMarks = BARE): PointerScript {
  const script = new PointerScript('ground', marks);
  script.plan = plan;
  return script;
}

function groundOf({ marks }: PointerScript): GroundShape {
  const shapes = marks.shapes.filter((shape) => shape.kind === 'ground');
  const [shape] = shapes;
  if (shape === undefined || shapes.length > 1) throw new Error(`${String(shapes.length)} sets of ground marks`);
  return shape;
}

describe('ground marks', () => {
  test('of a mat are four clicks, the fourth ends it; each place knows where it lies on the ground', () => {
    const script = hand(MAT).click(A).click(B).click(C).click(D);
    expect(script.kept).toHaveLength(1);
    expect(groundOf(script)).toEqual({
      kind: 'ground',
      id: 'shape-0',
      layout: 'mat',
      carried: true,
      places: [
        { ...A, target: 750, ball: 600 },
        { ...B, target: 750, ball: -600 },
        { ...C, target: -750, ball: -600 },
        { ...D, target: -750, ball: 600 },
      ],
    });
    expect(script.selected).toEqual({ kind: 'shape', id: 'shape-0', handle: null });
    expect(script.state).toEqual({ tool: 'ground', name: 'idle' });
  });

  test('of crossed sticks are the ends in the order: target, away from it, ball, player', () => {
    const script = hand(sticksPlan({ along: 1200, across: 1000 }))
      .click(A)
      .click(B)
      .click(C)
      .click(D);
    expect(groundOf(script).places.map(({ target, ball }) => [target, ball])).toEqual([
      [600, 0],
      [-600, 0],
      [0, 500],
      [0, -500],
    ]);
  });

  test('that were measured end with the last that was planned, or by Enter from the fourth on', () => {
    const all = hand(MEASURED).click(A).click(B).click(C).click(D).click(E);
    expect(groundOf(all).places).toHaveLength(5);
    const four = hand(MEASURED).click(A).click(B).click(C).click(D).key('Enter');
    expect(groundOf(four).places.map(({ target }) => target)).toEqual([0, 500, 1000, 500]);
    const again = hand(MEASURED).click(A).click(B).click(C).click(D).click(D);
    expect(groundOf(again).places).toHaveLength(4);
    const three = hand(MEASURED).click(A).click(B).click(C).key('Enter');
    expect(three.kept).toEqual([]);
    expect(three.state).toMatchObject({ name: 'collecting', places: [A, B, C] });
  });

  test('show themselves from the first press on, with the place under the pointer', () => {
    const script = hand(MAT).down(A.x, A.y);
    expect(script.draft?.shapes).toMatchObject([{ kind: 'ground', places: [A] }]);
    script.up(A.x, A.y).move(B.x, B.y);
    expect(script.draft?.shapes).toMatchObject([{ kind: 'ground', places: [A, B] }]);
    expect(script.kept).toEqual([]);
  });

  test('take a place where the press is let go, and a slip of a second click adds none', () => {
    const script = hand(MAT)
      .down(10, 10)
      .move(200, 200)
      .up(A.x, A.y)
      .click({ x: A.x + 3, y: A.y })
      .click(B);
    expect(script.state).toMatchObject({ places: [A, B] });
  });

  test('go back one by Backspace, to nothing in the end', () => {
    const script = hand(MAT).click(A).click(E).key('Backspace').click(B).click(C).click(D);
    expect(groundOf(script).places).toMatchObject([A, B, C, D]);
    expect(hand(MAT).click(A).key('Backspace').state).toEqual({ tool: 'ground', name: 'idle' });
  });

  test('cannot be clicked before their size is known', () => {
    const script = hand(null).click(A).click(B);
    expect(script).toMatchObject({ used: false, draft: null, kept: [], state: { tool: 'ground', name: 'idle' } });
  });

  test('are cancelled at every step without a trace', () => {
    const steps: ((script: PointerScript) => PointerScript)[] = [A, B, C, D].flatMap((at) => [
      (script: PointerScript) => script.move(at.x, at.y),
      (script: PointerScript) => script.down(at.x, at.y),
      (script: PointerScript) => script.up(at.x, at.y),
    ]);
    for (let count = 1; count < steps.length; count += 1) {
      const script = steps.slice(0, count).reduce((all, step) => step(all), hand(MAT));
      script.cancel();
      expect(script, String(count)).toMatchObject({
        marks: BARE,
        draft: null,
        kept: [],
        state: { tool: 'ground', name: 'idle' },
      });
    }
  });

  test('take the place of earlier ones only once they are complete, and leave all other shapes alone', () => {
    const first = hand(MAT).click(A).click(B).click(C).click(D).marks;
    const line = { kind: 'line', id: 'l', a: A, b: B, role: null, lengthMm: null } as const;
    const before = { ...first, shapes: [...first.shapes, line] };
    const script = hand(sticksPlan({ along: 1000, across: 1000 }), before)
      .click(E)
      .click(B)
      .click(C);
    expect(script.marks).toEqual(before);
    expect(script.draft?.shapes.map(({ kind }) => kind)).toEqual(['ground', 'line', 'ground']);
    script.kept.push(before);
    script.click(D);
    expect(groundOf(script)).toMatchObject({ id: 'shape-1', layout: 'sticks' });
    expect(script.marks.shapes).toContainEqual(line);
  });

  test('are kept with the frame where the earlier ones are kept, so that one step back brings those again', () => {
    const home = { ...hand(MAT).click(A).click(B).click(C).click(D).marks, frame: { index: 90, pts: 9000 } };
    const script = hand(MAT);
    const shape = home.shapes.find((each) => each.kind === 'ground') ?? null;
    script.elsewhere = { plan: MAT, home, shape };
    for (const at of [E, B, C, D]) script.click(at);
    expect(script.marks.frame).toEqual({ index: 90, pts: 9000 });
    expect(groundOf(script).places[0]).toMatchObject(E);
  });
});

test('sizes are told back from the places, and can be changed without clicking again', () => {
  expect(sizeOf(MAT)).toEqual({ along: 1500, across: 1200 });
  expect(sizeOf(sticksPlan({ along: 1200, across: 900 }))).toEqual({ along: 1200, across: 900 });
  expect(sizeOf(MEASURED)).toBeNull();
  const shape = groundOf(hand(MAT).click(A).click(B).click(C).click(D));
  const wider = laidAnew(shape, matPlan({ along: 1800, across: 1200 }));
  expect(wider.places.map(({ x, y }) => ({ x, y }))).toEqual([A, B, C, D]);
  expect(sizeOf(wider)).toEqual({ along: 1800, across: 1200 });
  expect(wider.id).toBe(shape.id);
});
