import { describe, expect, it } from 'vitest';
import { formatShapeNumbers, idleWords } from '../../../../core/measure/words/format.ts';
import { idleReason } from '../../../../core/measure/doubts/of-use.ts';
import { readShape } from '../../../../core/shapes/read-shape.ts';
import type { MeasuredReading } from '../../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../../core/model/swing.ts';
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
      expect(idleWords(reading)).toMatch(
        /^The known lengths in this picture give no centimetres: .* mark a longer one/,
      );
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
