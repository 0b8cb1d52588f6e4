import { describe, expect, it } from 'vitest';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { compareSwings } from '../../../core/compare/compare-swings.ts';
import type { PlacingErrors } from '../../../core/measure/uncertainty/placing.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { Shape } from '../../../core/model/mark.ts';
import type { Comparison, ReadingId } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { within } from '../../support/within.ts';
import { STEADY, STEADY_SET_UP } from '../../support/steady.ts';
import { swingOf } from '../measure/build-swing.ts';
import type { Given } from '../measure/build-swing.ts';
import { ALL_SHAPES, HEIGHT, WIDTH, inventedSwing, line, movedSwing } from '../measure/invented-swing.ts';

type Shapes = NonNullable<Given['shapes']>;

const plumb = line('plumb', { x: 100, y: 900 }, { x: 100, y: 100 }, null);
const knownLength = line('yardstick', { x: 200, y: 950 }, { x: 700, y: 950 }, 1000);

/** A mat of 1.5 m by 1.2 m as a camera 1 m high sees it from 5 m behind. */
const MAT: Shape = matSeenFrom({ height: 1000, away: 5000, focal: 1500 });

function matSeenFrom({ height, away, focal }: { height: number; away: number; focal: number }): Shape {
  const places = [
    { target: 0, ball: 0 },
    { target: 1500, ball: 0 },
    { target: 1500, ball: -1200 },
    { target: 0, ball: -1200 },
  ].map(({ target, ball }) => ({
    ...{ target, ball },
    x: WIDTH / 2 + (focal * ball) / (away + target),
    y: HEIGHT / 2 + (focal * height) / (away + target),
  }));
  return { kind: 'ground', id: 'mat', layout: 'mat', places };
}

function back(lean: number, shapes: Shapes = [plumb], date = '2026-05-12'): MarkedSwing {
  const placed = { address: { tailbone: [300, 600], 'neck-base': [300 + lean, 200] } } as const;
  return { ...swingOf({ view: 'down-the-line', placed, shapes }), date };
}

function head(shift: number, shapes: Shapes, date = '2026-05-12'): MarkedSwing {
  const placed = { address: { 'head-centre': [500, 200] }, top: { 'head-centre': [500 + shift, 200] } } as const;
  return { ...swingOf({ view: 'face-on', placed, shapes }), date };
}

function comparisonOf(
  then: MarkedSwing,
  now: MarkedSwing,
  id: ReadingId,
  placing: PlacingErrors = STEADY,
): Comparison | undefined {
  return compareSwings(then, now, SHIPPED_GOALS, placing).comparisons.find((comparison) => comparison.id === id);
}

/** A camera that is off in one way only. */
const only = (off: Partial<typeof STEADY_SET_UP>): PlacingErrors => ({
  ...STEADY,
  setUp: { ...STEADY_SET_UP, ...off },
});
const DAYS = ['2026-04-12', '2026-05-12'] as const;
const DEGREE = Math.PI / 180;

describe('a difference', () => {
  it('is now less then, and its u holds both', () => {
    const comparison = comparisonOf(back(0), back(400), 'back-incline');
    if (comparison === undefined) throw new Error('not compared');
    within(comparison.difference, 45, 1e-9);
    within(comparison.u, Math.hypot(comparison.then.u, comparison.now.u), 1e-12);
    expect(comparison.verdict).toBe('worth a look');
    expect(comparison.tolerance).toBe(5);
  });

  it('of two days holds the roll of both cameras where no plumb tells it; of one day it cancels', () => {
    const u = (shapes: Shapes, then: string) =>
      comparisonOf(back(300, shapes, then), back(300, shapes, DAYS[1]), 'back-incline', only({ roll: DEGREE }))?.u ?? 0;
    const clicks = u([], DAYS[1]);
    within(u([], DAYS[0]), Math.hypot(clicks, Math.SQRT2), 1e-6);
    // A plumb tells the roll; its own clicks are each day's.
    within(u([plumb], DAYS[0]), u([plumb], DAYS[1]), 1e-9);
  });

  it("of two days holds each camera's yaw by how far the line's ends lie apart in depth", () => {
    // Derived: a line of width a, height v and depth b seems to be a + b yaw wide, so its tilt turns by v b / (a² + v²) a radian.
    const level = (date: string): MarkedSwing => ({
      ...swingOf({
        view: 'face-on',
        placed: {
          address: { ball: [500, 900] },
          impact: { 'lead-shoulder': [560, 400], 'trail-shoulder': [500, 300] },
        },
        shapes: [plumb, knownLength],
      }),
      date,
    });
    const u = (then: string, placing: PlacingErrors) =>
      comparisonOf(level(then), level(DAYS[1]), 'shoulder-line', placing)?.u ?? 0;
    const [a, v, deep] = [60, 100, 2 * 0.19 * Math.sin(20 * DEGREE) * 500];
    const turns = (v * deep) / (a ** 2 + v ** 2);
    const off = only({ yaw: 0.01 });
    within(u(DAYS[0], off), Math.hypot(u(DAYS[0], STEADY), (Math.SQRT2 * 0.01 * turns) / DEGREE), 1e-3);
    within(u(DAYS[1], off), u(DAYS[1], STEADY), 1e-9);
  });

  it('of two days is surer where ground marks tell how both cameras looked, and corrected for it', () => {
    const swing = (lean: number, shapes: Shapes, date: string): MarkedSwing => back(lean, shapes, date);
    const u = (shapes: Shapes) =>
      comparisonOf(swing(300, shapes, DAYS[0]), swing(300, shapes, DAYS[1]), 'back-incline', ASSUMED_PLACING)?.u ?? 0;
    expect(u([plumb, MAT])).toBeLessThan(u([plumb]));
    expect(u([plumb, MAT])).toBeGreaterThan(0);
  });

  it('of the same player by the same coach leaves out what both always have alike', () => {
    const taken = (shared: number) => only({ definition: { shared, anew: 0 } });
    const of = (placing: PlacingErrors) =>
      comparisonOf(
        back(300, [plumb, knownLength], DAYS[0]),
        back(300, [plumb, knownLength], DAYS[1]),
        'back-incline',
        placing,
      );
    const [none, some] = [of(taken(0)), of(taken(0.02))];
    expect(some?.now.u ?? 0).toBeGreaterThan(1.5 * (none?.now.u ?? 0));
    within(some?.u ?? 0, none?.u ?? 1, 1e-9);
  });

  it('of a swing with itself is nothing, and never a change', () => {
    const swing = inventedSwing();
    const { comparisons, warnings } = compareSwings(swing, swing, SHIPPED_GOALS);
    expect(comparisons.length).toBeGreaterThan(70);
    expect(warnings).toEqual([]);
    for (const { difference, verdict } of comparisons) {
      expect(difference).toBe(0);
      expect(['no change', "can't tell"]).toContain(verdict);
    }
  });

  it('turns its sign when then and now are swapped', () => {
    const [a, b] = [inventedSwing(), movedSwing(inventedSwing(), ({ x, y }) => ({ x: x + 0.05 * y, y: y + 0.01 * x }))];
    const there = compareSwings(a, b, SHIPPED_GOALS).comparisons;
    const back = compareSwings(b, a, SHIPPED_GOALS).comparisons;
    expect(back.map(({ verdict }) => verdict)).toEqual(there.map(({ verdict }) => verdict));
    for (const [k, comparison] of there.entries())
      within(back[k]?.difference ?? Number.NaN, -comparison.difference, 1e-12);
  });
});

describe('lengths', () => {
  const box = { id: 'box', kind: 'box', role: 'head-box', x: 450, y: 150, width: 100, height: 100 } as const;

  it('are compared in centimetres where both have a known length', () => {
    const comparison = comparisonOf(head(0, [knownLength, box]), head(-50, [knownLength, box]), 'head-shift');
    expect(comparison?.unit).toBe('cm');
    within(comparison?.difference ?? Number.NaN, -10, 1e-9);
    expect(comparison?.verdict).toBe('changed');
  });

  it('else as a part of the same body length, though one has a known length', () => {
    const comparison = comparisonOf(head(0, [knownLength, box]), head(-50, [box]), 'head-shift');
    expect(comparison).toMatchObject({ unit: '% head box', tolerance: 10 });
    within(comparison?.difference ?? Number.NaN, -50, 1e-9);
  });

  it('are left out, and named in a warning, where there is only the scale of the picture', () => {
    const { comparisons, warnings } = compareSwings(head(0, []), head(-50, [box]), SHIPPED_GOALS);
    expect(comparisons.filter(({ id }) => id === 'head-shift')).toEqual([]);
    expect(warnings.some((warning) => warning.startsWith('Left out') && warning.includes('Head shift'))).toBe(true);
  });
});

describe('warnings', () => {
  const warningsOf = (then: MarkedSwing, now: MarkedSwing) =>
    compareSwings(then, now, SHIPPED_GOALS).warnings.join(' ');

  it('of another club, view or handedness, in plain words', () => {
    const swing = inventedSwing();
    expect(warningsOf(swing, { ...swing, club: 'Driver' })).toContain('Different clubs (then 7 iron, now Driver)');
    expect(warningsOf(swing, { ...swing, club: ' 7 Iron ' })).toBe('');
    expect(warningsOf(swing, { ...swing, handedness: 'left' })).toContain('then right-handed, now left-handed');
    const [behind, facing] = [swing.clips.slice(0, 1), swing.clips.slice(1)];
    const other = compareSwings({ ...swing, clips: behind }, { ...swing, clips: facing }, SHIPPED_GOALS);
    expect(other.comparisons).toEqual([]);
    expect(other.warnings).toEqual([
      'The two swings were filmed from different views (then down the line, now face on), so nothing can be compared.',
    ]);
  });

  it('of angles on two days without a plumb and ground marks on both', () => {
    const both = [plumb, MAT];
    const earlier = (shapes: Shapes) => back(300, shapes, '2026-04-12');
    expect(warningsOf(earlier([plumb]), back(300, []))).toContain('9 to 14°');
    expect(warningsOf(earlier(both), back(300, [plumb]))).toContain('9 to 14°');
    expect(warningsOf(earlier([MAT]), back(300, both))).toContain('9 to 14°');
    expect(warningsOf(earlier(both), back(300, both))).toBe('');
    expect(warningsOf(back(300, both), earlier(both))).toContain('the wrong way round');
    expect(warningsOf(back(300, []), back(300, []))).toBe('');
  });

  it('are none for two empty swings but that of the views', () => {
    const swing = { ...inventedSwing(ALL_SHAPES), clips: [] };
    expect(warningsOf(swing, swing)).toContain('then none, now none');
  });
});
