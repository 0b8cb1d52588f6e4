import { describe, expect, it } from 'vitest';
import { interiorAngle, toDegrees, wrapAngle } from '../../../core/geometry/angle.ts';
import {
  distanceToLine,
  inclineFromHorizontal,
  inclineFromVertical,
  tiltFromHorizontal,
} from '../../../core/geometry/line.ts';
import { fromSwing, toSwing } from '../../../core/geometry/point.ts';
import { within } from '../../support/within.ts';

const at = (along: number, up: number) => ({ along, up });
const degrees = (angle: number | null) => (angle === null ? Number.NaN : toDegrees(angle));
/** Rounding of atan2 and of the conversion to degrees. */
const EXACT = 1e-12;

describe("a line in the player's space, hand-worked", () => {
  it('leans 45 degrees toward +along for equal steps along and up', () => {
    within(degrees(inclineFromVertical(at(1, 1), at(4, 4))), 45, EXACT);
    within(degrees(inclineFromVertical(at(4, 1), at(1, 4))), -45, EXACT);
    within(degrees(inclineFromVertical(at(0, 0), at(0, 5))), 0, EXACT);
    within(degrees(inclineFromVertical(at(0, 5), at(0, 0))), 180, EXACT);
  });

  it('3-4-5: rises atan(3/4) = 36.8699 degrees from the horizontal', () => {
    within(degrees(inclineFromHorizontal(at(0, 0), at(4, 3))), 36.86989764584402, EXACT);
    within(degrees(inclineFromHorizontal(at(0, 0), at(4, -3))), -36.86989764584402, EXACT);
    within(degrees(inclineFromHorizontal(at(0, 0), at(-4, 3))), 180 - 36.86989764584402, EXACT);
  });

  it('tilts the same whichever way it runs along, and the other way when its ends are swapped', () => {
    within(degrees(tiltFromHorizontal(at(0, 0), at(4, 3))), 36.86989764584402, EXACT);
    within(degrees(tiltFromHorizontal(at(0, 0), at(-4, 3))), 36.86989764584402, EXACT);
    within(degrees(tiltFromHorizontal(at(4, 3), at(0, 0))), -36.86989764584402, EXACT);
  });

  it('5-12-13: the point (0, 13) lies 12 px left of the line from the origin to (12, 5)', () => {
    // Cross product of (12, 5) and (0, 13) is 156; over the length 13 that is 12.
    within(distanceToLine(at(0, 13), at(0, 0), at(12, 5)) ?? Number.NaN, 12, EXACT);
    within(distanceToLine(at(0, -13), at(0, 0), at(12, 5)) ?? Number.NaN, -12, EXACT);
    within(distanceToLine(at(24, 10), at(0, 0), at(12, 5)) ?? Number.NaN, 0, EXACT);
  });

  it('has no direction when its points are the same', () => {
    const same = at(2, 3);
    expect(inclineFromVertical(same, same)).toBeNull();
    expect(inclineFromHorizontal(same, same)).toBeNull();
    expect(tiltFromHorizontal(same, same)).toBeNull();
    expect(distanceToLine(at(0, 0), same, same)).toBeNull();
  });

  it('does not jump from 180 to -180 on a negative zero', () => {
    within(degrees(inclineFromVertical(at(0, 5), at(-0, 0))), 180, EXACT);
    within(degrees(inclineFromHorizontal(at(5, 0), at(0, -0))), 180, EXACT);
  });
});

describe('an interior angle', () => {
  it('is 90 at the corner of a square, 60 in an equilateral triangle', () => {
    within(degrees(interiorAngle(at(0, 0), at(3, 0), at(0, 7))), 90, EXACT);
    within(degrees(interiorAngle(at(0, 0), at(1, 0), at(0.5, Math.sqrt(3) / 2))), 60, EXACT);
  });

  it('is exactly 180 and 0 on collinear points, where an arc cosine gives NaN', () => {
    // 0.1 + 0.2 style coordinates make the cosine come out as 1.0000000000000002.
    for (const [dx, dy] of [
      [1, 1],
      [0.1, 0.7],
      [3.3, -1.1],
    ] as const) {
      within(degrees(interiorAngle(at(0, 0), at(dx, dy), at(-3 * dx, -3 * dy))), 180, 1e-6);
      within(degrees(interiorAngle(at(0, 0), at(dx, dy), at(3 * dx, 3 * dy))), 0, 1e-6);
    }
  });

  it('is the same from either arm', () => {
    const [vertex, a, b] = [at(2, 1), at(9, 4), at(-3, 5)];
    expect(interiorAngle(vertex, a, b)).toBe(interiorAngle(vertex, b, a));
  });

  it('does not exist when an arm has no length', () => {
    expect(interiorAngle(at(1, 1), at(1, 1), at(2, 2))).toBeNull();
    expect(interiorAngle(at(1, 1), at(2, 2), at(1, 1))).toBeNull();
  });
});

describe('wrapping', () => {
  it('keeps angles in (-180, 180], or in (-90, 90] for lines without direction', () => {
    for (const [given, wrapped] of [
      [0, 0],
      [180, 180],
      [-180, 180],
      [190, -170],
      [720 + 10, 10],
      [-540, 180],
    ] as const)
      within(toDegrees(wrapAngle((given * Math.PI) / 180)), wrapped, 1e-9);
    within(toDegrees(wrapAngle((100 * Math.PI) / 180, Math.PI)), -80, 1e-9);
    within(toDegrees(wrapAngle((-100 * Math.PI) / 180, Math.PI)), 80, 1e-9);
  });
});

describe('a picture point seen as the player has it', () => {
  it('turns y about and mirrors left-handers', () => {
    expect(toSwing({ x: 7, y: 3 }, { side: 1, tilt: 0 })).toEqual({ along: 7, up: -3 });
    expect(toSwing({ x: 7, y: 3 }, { side: -1, tilt: 0 })).toEqual({ along: -7, up: -3 });
  });

  it('is undone by its inverse, for either hand and any lean', () => {
    for (const side of [1, -1] as const)
      for (const tilt of [0, 0.3, -2]) {
        const back = fromSwing(toSwing({ x: 7, y: 3 }, { side, tilt }), { side, tilt });
        within(back.x, 7, 1e-12);
        within(back.y, 3, 1e-12);
      }
  });

  it('makes the plumb upright: a vertical leaning by the tilt becomes vertical', () => {
    const tilt = 0.1;
    const top = toSwing({ x: 100 * Math.sin(tilt), y: -100 * Math.cos(tilt) }, { side: 1, tilt });
    within(top.along, 0, 1e-12);
    within(top.up, 100, 1e-12);
  });
});
