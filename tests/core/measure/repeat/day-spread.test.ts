import { describe, expect, it } from 'vitest';
import { daySpread, daysInWords, placingErrorsOfChecks } from '../../../../core/measure/repeat/day-spread.ts';
import { placingErrorsOf } from '../../../../core/measure/repeat/placing-spread.ts';
import { ASSUMED_SET_UP } from '../../../../core/measure/camera/set-up-errors.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { BodyPointId } from '../../../../core/model/body-points.ts';
import type { RepeatCheck, RepeatFrame } from '../../../../core/model/repeat-check.ts';
import { within } from '../../../support/within.ts';

const JOINTS = ['lead-hip', 'trail-hip', 'neck-base', 'lead-shoulder', 'trail-knee'] as const;
/** Pixels of a metre where nothing tells the scale: a picture of 1080 lines shows 2.1 m. */
const PER_METRE = 1080 / 2.1;

function frameOf(index: number, placings: RepeatFrame['placings']): RepeatFrame {
  return {
    ...{ clipId: 'clip', view: 'face-on', handedness: 'right', frame: { index, pts: index }, checkpoints: [] },
    ...{ width: 1920, height: 1080, shapes: [], placings },
  };
}
const checkOf = (at: string, frames: readonly RepeatFrame[]): RepeatCheck => ({ id: at, at, frames, namings: [] });

/** Days on which a joint is taken to lie `metres` elsewhere, with clicks of `click` px. */
function drawn(days: number, metres: number, click: number, points: readonly BodyPointId[] = JOINTS, seed = 3) {
  const numbers = seeded(seed);
  return Array.from({ length: days }, (_, day) =>
    checkOf(
      `2026-05-${String(day + 10)}T09:00:00.000Z`,
      Array.from({ length: 6 }, (__, index) => {
        const places = points.map((point) => {
          const off = () => metres * PER_METRE * numbers.normal();
          const [x, y] = [500 + off(), 400 + off()];
          const clicked = () => ({ x: x + click * numbers.normal(), y: y + click * numbers.normal() });
          return [point, [{ x: 0, y: 0 }, clicked(), clicked()]] as const;
        });
        return frameOf(index, Object.fromEntries(places));
      }),
    ),
  );
}

describe('how far a joint is taken to lie elsewhere from day to day', () => {
  it('is what two days differ by: hand-worked', () => {
    // Means 100 and 106 px on x, alike on y: (6² / 2) / 2 of a pixel², no clicks in it.
    const [at, other] = [100, 106].map((x) =>
      frameOf(1, {
        'lead-hip': [
          { x: 0, y: 0 },
          { x, y: 5 },
          { x, y: 5 },
        ],
      }),
    );
    if (at === undefined || other === undefined) throw new Error('two');
    const found = daySpread([checkOf('2026-05-10T09:00:00.000Z', [at]), checkOf('2026-05-17T09:00:00.000Z', [other])]);
    within(found?.metres ?? 0, 3 / PER_METRE, 1e-12);
    expect(found?.freedom).toBe(2);
  });

  it('is found again, and clicks are no part of it', () => {
    // 120 degrees of freedom each: known to 6 %, four times that is allowed.
    within((daySpread(drawn(3, 0.02, 3))?.metres ?? 0) / 0.02, 1, 0.25);
    expect(daySpread(drawn(3, 0, 3))?.metres ?? 1).toBeLessThan(0.004);
  });

  it('is not told by one day, by other frames, or by what everybody sees', () => {
    const [first, second] = drawn(2, 0.02, 3);
    if (first === undefined || second === undefined) throw new Error('two');
    expect(daySpread([])).toBeNull();
    expect(daySpread([first])).toBeNull();
    expect(daySpread([first, { ...second, at: first.at.replace('09:', '15:') }])).toBeNull();
    const elsewhere = second.frames.map((frame) => ({ ...frame, clipId: 'another' }));
    expect(daySpread([first, { ...second, frames: elsewhere }])).toBeNull();
    expect(daySpread(drawn(2, 0.02, 3, ['clubhead', 'lead-toe']))).toBeNull();
    expect(daysInWords([first])).toMatch(/^Check the same frames again on another day/);
  });

  it('counts in readings, steadied by what is assumed, and leaves the click errors as they are', () => {
    const checks = drawn(3, 0.025, 3);
    const errors = placingErrorsOfChecks(checks);
    const anew = errors.setUp?.definition.anew ?? 0;
    expect(anew).toBeGreaterThan(ASSUMED_SET_UP.definition.anew);
    expect(anew).toBeLessThan(daySpread(checks)?.metres ?? 0);
    expect(errors.known).toEqual(placingErrorsOf(checks.flatMap(({ frames }) => frames)).known);
    expect(placingErrorsOfChecks(checks.slice(0, 1)).setUp).toBeUndefined();
    expect(daysInWords(checks)).toMatch(/^From day to day you take a joint to lie \d+ mm elsewhere/);
  });
});
