import { describe, expect, it } from 'vitest';
import { within } from '../../support/within.ts';
import { measuredReading, swingOf } from './build-swing.ts';
import type { Given } from './build-swing.ts';
import { SIGN_CASES } from './sign-cases.ts';

/** Rounding of atan2 and of the conversion to degrees, in pictures of some hundred pixels. */
const EXACT = 1e-9;

/** The same picture as a left-hander would give it: mirrored, in a picture 1920 wide. */
function mirrored(given: Given): Given {
  const flip = (place: readonly [number, number]) => [1920 - place[0], place[1]] as const;
  const placed = Object.fromEntries(
    Object.entries(given.placed).map(([checkpoint, points]) => [
      checkpoint,
      Object.fromEntries(Object.entries(points).map(([point, place]) => [point, flip(place)])),
    ]),
  );
  const shapes = (given.shapes ?? []).map((shape) =>
    shape.kind === 'box' ? { ...shape, x: 1920 - shape.x - shape.width } : shape,
  );
  return { ...given, placed, shapes, handedness: 'left' };
}

describe.each([
  ['right-handed', (given: Given) => given],
  ['left-handed, mirrored', mirrored],
] as const)('sign and size of each reading, %s', (_, turned) => {
  it.each(SIGN_CASES)('$id at $at: $value $unit, $why', ({ id, at, aspect = 'value', value, unit, given }) => {
    const reading = measuredReading(swingOf(turned(given)), id, { checkpoint: at, aspect });
    within(reading.value, value, EXACT);
    expect(reading.unit).toBe(unit);
    expect(reading.u).toBeGreaterThan(0);
    expect(reading.interval[0]).toBeLessThanOrEqual(reading.value);
    expect(reading.interval[1]).toBeGreaterThanOrEqual(reading.value);
  });
});
