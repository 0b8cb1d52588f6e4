import { describe, expect, it } from 'vitest';
import { shownCell } from '../../../../core/compare/shown-cell.ts';
import { compareSwings } from '../../../../core/compare/compare-swings.ts';
import { planStills } from '../../../../core/jobs/plan-stills.ts';
import { formatShapeNumbers, idleWords } from '../../../../core/measure/words/format.ts';
import { idleReason } from '../../../../core/measure/doubts/of-use.ts';
import { readShape } from '../../../../core/shapes/read-shape.ts';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import type { MeasuredReading } from '../../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../../core/model/swing.ts';
import { SHIPPED_PATTERN } from '../../../../core/parse/shipped-pattern.ts';
import { findReading, swingOf } from '../build-swing.ts';
import { line } from '../invented-swing.ts';

/** A metre that lies nearly along the view: two pixels of it are seen. */
const along = line('yardstick', { x: 300, y: 900 }, { x: 302, y: 900 }, 1000);
/** The same metre across the view. */
const across = line('yardstick', { x: 300, y: 900 }, { x: 500, y: 900 }, 1000);

function feet(shape: typeof along): MarkedSwing {
  const placed = { 'lead-ankle': [640, 880], 'trail-ankle': [560, 880], 'head-centre': [600, 300] } as const;
  return swingOf({
    view: 'face-on',
    placed: { address: placed, top: { ...placed, 'head-centre': [600, 301] } },
    shapes: [shape],
  });
}

function measured(
  swing: MarkedSwing,
  ...which: Parameters<typeof findReading> extends [unknown, ...infer R] ? R : never
) {
  const reading = findReading(swing, ...which);
  if (reading.state !== 'measured') throw new Error(`${reading.id} is missing: ${reading.reason}`);
  return reading;
}

describe('a number that tells nothing is none', () => {
  it('where a known length lies nearly along the view: no centimetre, not even of a shift of nearly 0', () => {
    const stance = measured(feet(along), 'stance-width', { checkpoint: 'address' });
    const shift = measured(feet(along), 'head-shift', { checkpoint: 'top' });
    for (const reading of [stance, shift]) {
      expect(reading.unit).toBe('cm');
      expect(idleReason(reading)).toBe('scale-unsure');
      expect(idleWords(reading)).toMatch(/^The yardsticks in this picture give no centimetres: .* mark a longer one/);
    }
    expect(idleReason(measured(feet(across), 'stance-width', { checkpoint: 'address' }))).toBeNull();
    expect(idleReason(measured(feet(across), 'head-shift', { checkpoint: 'top' }))).toBeNull();
  });

  it('beside a drawn line, too; the known length itself is given', () => {
    const clip = feet(along).clips[0];
    if (clip === undefined) throw new Error('the swing has a clip');
    const other = line(null, { x: 100, y: 200 }, { x: 100, y: 600 }, null);
    const [incline, length] = formatShapeNumbers(readShape(other, clip));
    expect(incline?.text).toMatch(/^90/);
    expect(length).toBeNull();
    expect(formatShapeNumbers(readShape(along, clip))[1]?.text).toBe('100.0 cm');
  });

  it('for a size by a part of itself, for a shift by what it can be, for an angle by neither', () => {
    const one = (value: number, half: number, more: Partial<MeasuredReading>): MeasuredReading => ({
      ...measured(feet(across), 'stance-width', { checkpoint: 'address' }),
      ...{ value, u: half / 1.96, interval: [value - half, value + half], coverage: 1.96, ...more },
    });
    const speed = { id: 'clubhead-speed', unit: 'm/s' } as const;
    expect(idleReason(one(40, 19, speed))).toBeNull();
    expect(idleReason(one(40, 21, speed))).toBe('too-wide');
    expect(idleReason(one(0, 1, speed))).toBe('too-wide');
    expect(idleReason(one(1891, 1578, {}))).toBe('too-wide');
    const shift = { id: 'head-shift', unit: 'cm', checkpoint: 'top' } as const;
    expect(idleReason(one(0.1, 3, shift))).toBeNull();
    expect(idleReason(one(0, 0, shift))).toBeNull();
    expect(idleReason(one(50, 59, shift))).toBeNull();
    expect(idleReason(one(50, 61, shift))).toBe('too-wide');
    const angle = { id: 'lead-knee', unit: 'deg', view: 'face-on', aspect: 'change' } as const;
    expect(idleReason(one(0.2, 11, angle))).toBeNull();
    expect(idleReason(one(0.2, 11, { ...angle, notes: ['short-line'] }))).toBe('short-line');
  });

  it('says what to do about the largest part of its ±', () => {
    const stance = measured(feet(across), 'stance-width', { checkpoint: 'address' });
    const wide = { ...stance, u: stance.value };
    expect(idleWords({ ...wide, budget: [{ source: 'placing', u: 9 }] })).toMatch(/Zoom in to place them/);
    expect(idleWords({ ...wide, budget: [{ source: 'time', u: 9 }] })).toMatch(/more frames a second/);
    expect(idleWords({ ...wide, budget: [] })).toMatch(/^Can't tell/);
    expect(idleWords(stance)).toBe('');
  });
});

describe('sheet and stills show the same', () => {
  /** Shoulders that nearly hide one another at address make the line of then tell nothing. */
  const at = (lead: readonly [number, number]) => ({ 'lead-shoulder': lead, 'trail-shoulder': [500, 300] as const });
  const then = swingOf({ view: 'face-on', placed: { top: at([512, 302]) } });
  const now = { ...swingOf({ view: 'face-on', placed: { top: at([700, 330]) } }), date: '2026-06-12' };
  const { comparisons } = compareSwings(then, now, SHIPPED_PATTERN);
  const read = { then: readSwing(then), now: readSwing(now), comparisons };

  it('where one of the two numbers tells nothing: no difference, and the other number alone', () => {
    expect(comparisons.map(({ id }) => id)).toContain('shoulder-line');
    const cell = shownCell(read, { view: 'face-on', checkpoint: 'top' }, []);
    expect(cell.comparisons).toEqual([]);
    expect(cell.then).toEqual([]);
    expect(cell.now.map(({ id }) => id)).toEqual(['shoulder-line']);
    const [still] = planStills({
      ...{ now, then, checkpoints: ['top'], views: ['face-on'], pattern: SHIPPED_PATTERN },
    });
    expect(still?.rows[0]?.comparisons).toEqual([]);
    expect(still?.rows[0]?.panels.map(({ readings }) => readings.length)).toEqual([0, 1]);
  });
});
