import { describe, expect, test } from 'vitest';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { liesIn } from '../../../core/painting/box.ts';
import { cropsAlike, type ShownClip } from '../../../core/painting/crops-alike.ts';
import { within } from '../../support/within.ts';

/** Head 0.4 and feet 1 player height below the top; hands reach to the right. */
const PLAYER: Readonly<Partial<Record<BodyPointId, readonly [number, number]>>> = {
  'head-centre': [0, 0],
  'neck-base': [0, 0.15],
  'grip-end': [0.3, 0.4],
  'lead-ankle': [0.1, 1],
  'trail-ankle': [-0.1, 1],
};

function clip(size: number, at: readonly [number, number], picture: { width: number; height: number }): ShownClip {
  const points = Object.fromEntries(
    Object.entries(PLAYER).map(([id, [x, y]]) => [id, { x: at[0] + x * size, y: at[1] + y * size, hidden: false }]),
  );
  return { frames: [{ frame: { index: 0, pts: 0 }, points, shapes: [] }], ...picture };
}

const FREE = { narrowest: 0, widest: Infinity };
const LARGE = clip(600, [900, 300], { width: 1920, height: 1080 });
const SMALL = clip(300, [170, 120], { width: 354, height: 492 });
const headOf = ({ frames: [marks] }: ShownClip) => marks?.points['head-centre'] ?? { x: NaN, y: NaN };

describe('crops of two clips', () => {
  const crops = cropsAlike([LARGE, SMALL], FREE) ?? [];
  const [large, small] = crops;
  if (large === undefined || small === undefined) throw new Error('no crop');

  test('have one width to height, and the player equally large in them', () => {
    // An edge is a multiple of 1/256 px: of 200 px, a few parts in 100,000.
    within(large.width / large.height, small.width / small.height, 1e-3, 'aspect');
    within(large.height / small.height, 2, 1e-3, 'size');
  });

  test('have the player at the same place', () => {
    const part = (box: typeof large, of: ShownClip) => (headOf(of).y - box.y) / box.height;
    within(part(large, LARGE), part(small, SMALL), 1e-3, 'head');
  });

  test('lie in their pictures and hold all that is placed', () => {
    for (const [index, of] of [LARGE, SMALL].entries()) {
      const box = crops[index] ?? { x: NaN, y: NaN, width: 0, height: 0 };
      expect(liesIn(box, { x: 0, y: 0, width: of.width, height: of.height })).toBe(true);
      for (const { x, y } of Object.values(of.frames[0]?.points ?? {}))
        expect(liesIn({ x, y, width: 0, height: 0 }, box)).toBe(true);
    }
  });

  test('are widened or heightened to what is asked for, as far as both pictures reach, and never cut the player for it', () => {
    const aspectOf = (range: Parameters<typeof cropsAlike>[1], clips = [LARGE, LARGE]) => {
      const box = cropsAlike(clips, range)?.[0] ?? { width: 0, height: 1 };
      return box.width / box.height;
    };
    within(aspectOf({ narrowest: 1, widest: 2 }), 1, 1e-3, 'widened');
    within(aspectOf({ narrowest: 0, widest: 0.5 }), 0.5, 1e-3, 'heightened');
    // The small picture is 354 wide: 1.28 times 300 high and all of its width.
    within(aspectOf({ narrowest: 3, widest: 4 }, [LARGE, SMALL]), 354 / 384, 1e-3, 'as wide as the small one');
  });

  test('are moved, not made smaller, where a picture ends', () => {
    const edge = clip(300, [60, 120], { width: 354, height: 492 });
    const [, moved] = cropsAlike([LARGE, edge], { narrowest: 0.8, widest: 2 }) ?? [];
    expect([moved?.x, moved?.width]).toEqual([
      0,
      (cropsAlike([LARGE, SMALL], { narrowest: 0.8, widest: 2 }) ?? [])[1]?.width,
    ]);
  });
});

test('without points that say how large the player is there is none', () => {
  const none: FrameMarks = { frame: { index: 0, pts: 0 }, points: {}, shapes: [] };
  expect(cropsAlike([LARGE, { ...SMALL, frames: [none] }], FREE)).toBeNull();
  expect(cropsAlike([{ ...LARGE, frames: [] }], FREE)).toBeNull();
  expect(cropsAlike([], FREE)).toBeNull();
  // Only the upper body: nobody knows where the ground is.
  const upper = Object.fromEntries(
    Object.entries(SMALL.frames[0]?.points ?? {}).filter(([id]) => !id.endsWith('ankle')),
  );
  expect(cropsAlike([LARGE, { ...SMALL, frames: [{ ...none, points: upper }] }], FREE)).toBeNull();
});
