import { describe, expect, it } from 'vitest';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { GroundShape, PicturePoint } from '../../../core/model/mark.ts';
import type { Reading, ReadingId } from '../../../core/model/reading.ts';
import type { Handedness } from '../../../core/model/words.ts';
import { within } from '../../support/within.ts';
import { swingOf } from './build-swing.ts';
import type { Placed } from './build-swing.ts';
import { HEIGHT, WIDTH } from './invented-swing.ts';

const DEGREE = Math.PI / 180;

/** Level camera 1 m high, 5 m behind the ground's origin, looking along the target line; 1500 px of focal length. */
const seen = (target: number, ball: number, handedness: Handedness): PicturePoint => ({
  x: WIDTH / 2 + ((handedness === 'right' ? 1 : -1) * 1500 * ball) / (5000 + target),
  y: HEIGHT / 2 + (1500 * 1000) / (5000 + target),
});

/** Feet on the ground in mm: heel, and the shoe's 300 mm turned out from square. */
function foot(
  heel: readonly [number, number],
  turned: number,
): Readonly<Record<'heel' | 'toe', readonly [number, number]>> {
  return {
    heel,
    toe: [heel[0] + 300 * Math.sin(turned * DEGREE), heel[1] + 300 * Math.cos(turned * DEGREE)],
  };
}

interface Given {
  readonly handedness?: Handedness;
  readonly marks?: GroundShape['places'] | null;
  readonly lead?: number;
  readonly trail?: number;
  /** Lead heel and toe at finish, mm from where they were. */
  readonly slip?: readonly [number, number];
}

const CORNERS = [
  [-600, 0],
  [900, 0],
  [900, 1200],
  [-600, 1200],
] as const;

function read(id: ReadingId, given: Given = {}): Reading {
  const { handedness = 'right', lead = 25, trail = 10, slip = [0, 0] } = given;
  const [leadFoot, trailFoot] = [foot([230, 300], lead), foot([-230, 300], -trail)];
  const at = ([target, ball]: readonly [number, number]): readonly [number, number] => {
    const { x, y } = seen(target, ball, handedness);
    return [x, y];
  };
  const places = CORNERS.map(([target, ball]) => ({ ...seen(target, ball, handedness), target, ball }));
  const points = (moved: readonly [number, number]): Partial<Record<BodyPointId, readonly [number, number]>> => ({
    'lead-heel': at([leadFoot.heel[0] + moved[0], leadFoot.heel[1] + moved[1]]),
    'lead-toe': at([leadFoot.toe[0] + moved[0], leadFoot.toe[1] + moved[1]]),
    'trail-heel': at(trailFoot.heel),
    'trail-toe': at(trailFoot.toe),
  });
  const placed: Placed = { address: points([0, 0]), finish: points(slip) };
  const marks = given.marks === undefined ? places : given.marks;
  const shapes: readonly GroundShape[] =
    marks === null ? [] : [{ id: 'g', kind: 'ground', layout: 'mat', places: marks }];
  const swing = swingOf({ view: 'down-the-line', placed, handedness, shapes });
  const checkpoint = id.endsWith('slip') ? 'finish' : 'address';
  const found = readSwing(swing).find((reading) => reading.id === id && reading.checkpoint === checkpoint);
  if (found === undefined) throw new Error(`${id} is not in the list`);
  return found;
}

function value(id: ReadingId, given: Given = {}): number {
  const reading = read(id, given);
  if (reading.state !== 'measured') throw new Error(`${id} is missing: ${reading.reason}`);
  return reading.value;
}

describe('feet on the ground', () => {
  it.each(['right', 'left'] as const)('of a %s-handed player are turned out by as much as they are', (handedness) => {
    // A camera of 1,920 px: what rounding leaves of an exact scene.
    within(value('lead-flare', { handedness }), 25, 1e-6);
    within(value('trail-flare', { handedness }), 10, 1e-6);
    within(value('lead-flare', { handedness, lead: -5 }), -5, 1e-6);
  });

  it('stand as far apart, and their toes on as open a line, as they do', () => {
    within(value('ground-stance'), 46, 1e-6);
    within(value('toe-line', { lead: 0, trail: 0 }), 0, 1e-6);
    // Lead toe farther back than the trail toe: open, minus. 300 mm square against 300 mm at 40 degrees.
    const [back, apart] = [300 * Math.cos(40 * DEGREE) - 300, 460 + 300 * Math.sin(40 * DEGREE)];
    within(value('toe-line', { lead: 40, trail: 0 }), Math.atan2(back, apart) / DEGREE, 1e-6);
  });

  it('slip by as much as they do: 3, 4, 5', () => {
    within(value('heel-slip', { slip: [30, 40] }), 5, 1e-6);
    within(value('toe-slip', { slip: [-40, 30] }), 5, 1e-6);
  });

  it('have a ± that holds the marks as well as the feet', () => {
    const reading = read('lead-flare');
    if (reading.state !== 'measured') throw new Error('it is missing');
    expect(reading.budget.map(({ source }) => source).toSorted()).toEqual(['ground', 'placing']);
    expect(reading.shapes).toEqual(['g']);
    expect(reading.unit).toBe('deg');
    expect(reading.notes).toContain('placing-assumed');
  });
});

describe('feet on the ground are not read', () => {
  it('without ground marks, before any point is asked for', () => {
    expect(read('lead-flare', { marks: null })).toMatchObject({
      reason: 'ground-missing',
      needs: { ground: true, points: [] },
    });
  });

  it('by marks of which three lie on a line', () => {
    const flat = [-600, 0, 900].map((target) => ({ ...seen(target, 0, 'right'), target, ball: 0 }));
    const marks = [...flat, { ...seen(0, 1200, 'right'), target: 0, ball: 1200 }];
    expect(read('lead-flare', { marks })).toMatchObject({ reason: 'ground-missing' });
  });

  it('by marks that were taken for those of the other hand', () => {
    const marks = CORNERS.map(([target, ball]) => ({ ...seen(target, ball, 'right'), target, ball: 1200 - ball }));
    expect(read('lead-flare', { marks })).toMatchObject({ reason: 'ground-mixed-up' });
  });
});
