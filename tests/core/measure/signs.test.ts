import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { READING_IDS } from '../../../core/model/reading.ts';
import { within } from '../../support/within.ts';
import { measuredReading, swingOf } from './build-swing.ts';
import type { Given } from './build-swing.ts';
import { SIGN_CASES } from './sign-cases.ts';

/** Readings of arcs, of the ground and of times take more than points of one or two frames; withdrawn ones are held elsewhere. */
const ELSEWHERE = [
  'arcs.test.ts',
  'on-the-ground.test.ts',
  'naming-and-rate.test.ts',
  '../../outside/definitions.test.ts',
];

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

test('no reading goes without a case worked by hand', () => {
  const withCase = new Set<string>(SIGN_CASES.map(({ id }) => id));
  const texts = ELSEWHERE.map((name) => readFileSync(join(import.meta.dirname, name), 'utf8')).join('\n');
  expect(READING_IDS.filter((id) => !withCase.has(id) && !texts.includes(`'${id}'`))).toEqual([]);
});
