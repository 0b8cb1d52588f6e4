import { describe, expect, test } from 'vitest';
import { goalOfAngle, goalOfLength } from '../../../core/geometry/goal-figure.ts';
import type { Figure } from '../../../core/geometry/figure.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { within } from '../../support/within.ts';

const rad = (degrees: number): number => (degrees * Math.PI) / 180;
const at = (x: number, y: number): PicturePoint => ({ x, y });
/** Rounding of sines and cosines of lengths of some hundred pixels. */
const EXACT = 1e-9;

function lies(place: PicturePoint | undefined, x: number, y: number): void {
  within(place?.x ?? NaN, x, EXACT);
  within(place?.y ?? NaN, y, EXACT);
}

/** A back of 100 px that leans by so many degrees to the right of upright, read against the vertical. */
function leaning(degrees: number): readonly Figure[] {
  const foot = at(0, 0);
  const head = at(100 * Math.sin(rad(degrees)), -100 * Math.cos(rad(degrees)));
  const upright = at(0, -100);
  return [
    { kind: 'line', a: foot, b: head },
    { kind: 'line', a: foot, b: upright },
    { kind: 'angle', vertex: foot, a: upright, b: head },
  ];
}

describe('the goal of an angle', () => {
  test('a back at 30° with a goal of 40° to 50°: the wedge begins 10° beyond it, and the line lies in its middle', () => {
    const goal = goalOfAngle(leaning(30), rad(30), { from: rad(40), to: rad(50) });
    lies(goal?.lines[0]?.a, 0, 0);
    lies(goal?.lines[0]?.b, 100 * Math.sin(rad(45)), -100 * Math.cos(rad(45)));
    // Upright is -90° on screen, and leaning to the right turns clockwise.
    within(goal?.wedge?.start ?? NaN, rad(-50), EXACT);
    within(goal?.wedge?.end ?? NaN, rad(-40), EXACT);
    within(goal?.wedge?.radius ?? NaN, 100, EXACT);
  });

  test('the gap between what was read and the goal is the miss, whatever a camera that leans adds to both', () => {
    // Drawn 32°, read 30°: a plumb took 2° away. A goal of 30° is where it is, 25° lies 5° back.
    const same = goalOfAngle(leaning(32), rad(30), { from: rad(30), to: rad(30) });
    lies(same?.lines[0]?.b, 100 * Math.sin(rad(32)), -100 * Math.cos(rad(32)));
    const less = goalOfAngle(leaning(32), rad(30), { from: rad(25), to: rad(25) });
    lies(less?.lines[0]?.b, 100 * Math.sin(rad(27)), -100 * Math.cos(rad(27)));
    expect(less?.wedge).toBeNull();
  });

  test('a reading of the other sign turns the other way: −30° to a goal of −20° is nearer to upright', () => {
    const goal = goalOfAngle(leaning(30), rad(-30), { from: rad(-20), to: rad(-20) });
    lies(goal?.lines[0]?.b, 100 * Math.sin(rad(20)), -100 * Math.cos(rad(20)));
  });

  test('a line that crosses the vertex is turned on both sides, by its own lengths', () => {
    // Shoulders of 60 px beyond a crossing and 40 px before it, square to an upright spine: 90°, with a goal of 60°.
    const parts: readonly Figure[] = [
      { kind: 'line', a: at(-40, 0), b: at(60, 0) },
      { kind: 'line', a: at(0, 50), b: at(0, -50) },
      { kind: 'angle', vertex: at(0, 0), a: at(0, -100), b: at(100, 0) },
    ];
    const goal = goalOfAngle(parts, rad(90), { from: rad(60), to: rad(60) });
    lies(goal?.lines[0]?.b, 60 * Math.sin(rad(60)), -60 * Math.cos(rad(60)));
    lies(goal?.lines[0]?.a, -40 * Math.sin(rad(60)), 40 * Math.cos(rad(60)));
  });

  test('with one limit the line stands at it, and the wedge opens to the side that is on target', () => {
    const atLeast = goalOfAngle(leaning(30), rad(30), { from: rad(35), to: null });
    lies(atLeast?.lines[0]?.b, 100 * Math.sin(rad(35)), -100 * Math.cos(rad(35)));
    within(atLeast?.wedge?.start ?? NaN, rad(-55), EXACT);
    expect(atLeast?.wedge?.end).toBeGreaterThan(rad(-50));
    const atMost = goalOfAngle(leaning(30), rad(30), { from: null, to: rad(25) });
    within(atMost?.wedge?.end ?? NaN, rad(-65), EXACT);
  });

  test('none where the drawn angle is not the one that was read, where nothing is drawn, and without a limit', () => {
    expect(goalOfAngle(leaning(30), rad(70), { from: 0, to: 1 })).toBeNull();
    expect(goalOfAngle([], rad(30), { from: 0, to: 1 })).toBeNull();
    expect(goalOfAngle(leaning(30), rad(30), { from: null, to: null })).toBeNull();
  });
});

describe('the goal of a length', () => {
  // A head that moved 50 px to the right, which is 10 cm.
  const moved: readonly Figure[] = [{ kind: 'length', a: at(100, 200), b: at(150, 200) }];

  test('bars stand across the way at each limit, as far as the scale of the length says', () => {
    const goal = goalOfLength(moved, 10, { from: -2, to: 4 });
    // 5 px a cm: at 90 and at 120; 15 px each way.
    expect(goal?.lines).toEqual([
      { a: at(90, 185), b: at(90, 215) },
      { a: at(120, 185), b: at(120, 215) },
    ]);
    expect(goal?.wedge).toBeNull();
  });

  test('a goal of one value has one bar; a reading of the other sign the same scale', () => {
    expect(goalOfLength(moved, 10, { from: 0, to: 0 })?.lines).toHaveLength(1);
    const [bar] = goalOfLength(moved, -10, { from: 0, to: null })?.lines ?? [];
    within(bar?.a.x ?? NaN, 100, EXACT);
    const [less] = goalOfLength(moved, -10, { from: -4, to: null })?.lines ?? [];
    within(less?.a.x ?? NaN, 120, EXACT);
  });

  test('none of a way that has no direction, or of the number 0', () => {
    expect(goalOfLength([{ kind: 'length', a: at(1, 1), b: at(2, 2) }], 0.1, { from: 0, to: 1 })).toBeNull();
    expect(goalOfLength(moved, 0, { from: 0, to: 1 })).toBeNull();
    expect(goalOfLength([], 3, { from: 0, to: 1 })).toBeNull();
  });
});
