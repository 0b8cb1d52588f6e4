import { describe, expect, it } from 'vitest';
import { OVERLAY_POINTS, overlayOf } from '../../../core/compare/overlay.ts';
import { applySimilarity } from '../../../core/geometry/similarity.ts';
import type { MarkedClip } from '../../../core/model/swing.ts';
import { within } from '../../support/within.ts';
import { inventedSwing, movedSwing } from '../measure/invented-swing.ts';

const TURN = 0.02;
/** Camera nearer by a tenth, rolled a little, standing elsewhere. */
const camera = ({ x, y }: { x: number; y: number }) => ({
  x: 1.1 * (Math.cos(TURN) * x - Math.sin(TURN) * y) - 80,
  y: 1.1 * (Math.sin(TURN) * x + Math.cos(TURN) * y) + 45,
});

function clipOf(swing: ReturnType<typeof inventedSwing>, index: number): MarkedClip {
  const clip = swing.clips[index];
  if (clip === undefined) throw new Error('no clip');
  return clip;
}

describe('laying now over then', () => {
  it('brings ball and feet, and with them everything, onto the earlier picture', () => {
    const then = inventedSwing();
    const now = movedSwing(then, camera);
    for (const index of [0, 1]) {
      const overlay = overlayOf(clipOf(then, index), clipOf(now, index));
      if (overlay === null) throw new Error('no overlay');
      expect(overlay.points).toEqual(OVERLAY_POINTS);
      within(overlay.residual, 0, 1e-9);
      within(Math.hypot(overlay.transform.a, overlay.transform.b), 1 / 1.1, 1e-12);
      const anywhere = { x: 321, y: 654 };
      const there = applySimilarity(overlay.transform, camera(anywhere));
      within(there.x, anywhere.x, 1e-9);
      within(there.y, anywhere.y, 1e-9);
    }
  });

  it('says by its residual how badly the feet fit', () => {
    const then = inventedSwing();
    const wide = movedSwing(then, ({ x, y }) => ({ x: x + (x > 950 ? 20 : 0), y }));
    expect(overlayOf(clipOf(then, 1), clipOf(wide, 1))?.residual).toBeGreaterThan(2);
  });

  it('is not possible without two shared points at address', () => {
    const then = clipOf(inventedSwing(), 0);
    expect(overlayOf(then, { ...then, marks: [] })).toBeNull();
    expect(overlayOf({ ...then, checkpoints: {} }, then)).toBeNull();
    const marks = then.marks.map((entry) => ({ ...entry, points: { ball: { x: 1, y: 2, hidden: false } } }));
    expect(overlayOf(then, { ...then, marks })).toBeNull();
  });
});
