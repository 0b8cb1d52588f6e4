import { describe, expect, test } from 'vitest';
import { SAME_CLIP, carriedShape, carryingBetween } from '../../../core/compare/carry-shapes.ts';
import type { ClipOfPlayer } from '../../../core/compare/carry-shapes.ts';
import type { PicturePoint, PlacedPoint, Shape } from '../../../core/model/mark.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import { within } from '../../support/within.ts';

const at = (x: number, y: number): PicturePoint => ({ x, y });
const boxShape: Shape = { id: '3', kind: 'box', x: 50, y: 60, width: 30, height: 20, role: 'head-box', carried: true };
const circleShape: Shape = { id: '4', kind: 'circle', centre: at(300, 200), radius: 41.5 };
const SHAPES: readonly Shape[] = [
  { id: '1', kind: 'line', a: at(10.1, 20), b: at(0.1 + 0.2, 7), role: 'plumb', lengthMm: null },
  { id: '2', kind: 'angle', vertex: at(100, 100), a: at(200, 110), b: at(120, 10) },
  boxShape,
  circleShape,
  { id: '5', kind: 'circle', centre: at(0, 0), radius: 5, rim: [at(5, 0), at(0, 5), at(-5, 0)] },
  { id: '6', kind: 'free', places: [at(1, 1), at(2, 5), at(9, 4)] },
];

function player(
  handedness: 'left' | 'right',
  size: readonly [number, number],
  points: Partial<Record<BodyPointId, PicturePoint>> = {},
  view: 'face-on' | 'down-the-line' = 'face-on',
): ClipOfPlayer {
  const placed = Object.fromEntries(
    Object.entries(points).map(([id, place]): [string, PlacedPoint] => [id, { ...place, hidden: false }]),
  );
  const frame = { index: 3, pts: 3 };
  return {
    handedness,
    clip: {
      ...{ view, width: size[0], height: size[1] },
      checkpoints: { address: { ...frame, ticks: 1 } },
      marks: [{ frame, points: placed, shapes: [] }],
    },
  };
}

function angleOf(shape: Shape | null): number {
  if (shape?.kind !== 'angle') throw new Error('no angle');
  const arm = (end: PicturePoint) => Math.atan2(end.y - shape.vertex.y, end.x - shape.vertex.x);
  const turn = Math.abs(arm(shape.a) - arm(shape.b));
  return Math.min(turn, 2 * Math.PI - turn);
}

test('within one clip a copy is the same to the last bit, with another id and what it stands for', () => {
  for (const shape of SHAPES) expect(carriedShape(shape, SAME_CLIP, 'new')).toEqual({ ...shape, id: 'new' });
});

test('onto another clip a shape is plain: what it stood for held for its own', () => {
  const to = carryingBetween(player('right', [400, 300]), player('right', [400, 300]));
  for (const shape of SHAPES) {
    const copy = carriedShape(shape, to, 'new');
    if (copy !== null && 'role' in copy) expect(copy.role).toBeNull();
  }
});

test('a path is not copied: its places belong to the frames of its clip', () => {
  const path: Shape = { id: 'p', kind: 'path', subject: 'hands', places: [{ ...at(1, 1), pts: 3 }] };
  expect(carriedShape(path, SAME_CLIP, 'new')).toBeNull();
});

describe('mirrored for the other hand', () => {
  const there = carryingBetween(player('right', [640, 480]), player('left', [640, 480]));
  const back = carryingBetween(player('left', [640, 480]), player('right', [640, 480]));

  test('what was left is right: x becomes width - x', () => {
    expect(there).toMatchObject({ by: 'size', mirrored: true, scale: 1 });
    expect(there.place(at(0, 10))).toEqual(at(640, 10));
  });

  test('twice is what it was, to 1e-9 px', () => {
    for (const shape of SHAPES.filter(({ kind }) => kind !== 'line' && kind !== 'box')) {
      const once = carriedShape(shape, there, 'once');
      const twice = once === null ? null : carriedShape(once, back, shape.id);
      const numbers = (value: unknown) => (JSON.stringify(value).match(/-?\d+(\.\d+)?(e-?\d+)?/g) ?? []).map(Number);
      for (const [place, number] of numbers(twice).entries()) within(number, numbers(shape)[place] ?? NaN, 1e-9);
    }
  });

  test('an angle keeps its size', () => {
    const [, angle] = SHAPES;
    if (angle === undefined) throw new Error('no angle');
    within(angleOf(carriedShape(angle, there, 'new')), angleOf(angle), 1e-12);
  });

  test('another view is never mirrored, and takes places by the size of the picture', () => {
    const other = carryingBetween(player('right', [640, 480]), player('left', [640, 480], {}, 'down-the-line'));
    expect(other).toMatchObject({ by: 'view', mirrored: false, scale: 1 });
  });
});

describe('laid over each other by ball and feet', () => {
  /** Turned by 10 degrees, twice as large, and moved. */
  const turn = (10 * Math.PI) / 180;
  const moved = ({ x, y }: PicturePoint): PicturePoint =>
    at(2 * (x * Math.cos(turn) - y * Math.sin(turn)) + 31, 2 * (x * Math.sin(turn) + y * Math.cos(turn)) - 12);
  const FEET = { ball: at(300, 400), 'lead-toe': at(260, 420), 'trail-heel': at(180, 430) } as const;
  const from = player('right', [640, 480], FEET);
  const to = player(
    'right',
    [1920, 1080],
    Object.fromEntries(Object.entries(FEET).map(([id, place]) => [id, moved(place)])),
  );
  const carrying = carryingBetween(from, to);

  test('every place goes where ball and feet went, and lengths grow alike', () => {
    expect(carrying).toMatchObject({ by: 'ground', mirrored: false });
    within(carrying.scale, 2, 1e-9);
    for (const place of [at(0, 0), at(123.4, 56.7), at(-20, 900)]) {
      within(carrying.place(place).x, moved(place).x, 1e-7);
      within(carrying.place(place).y, moved(place).y, 1e-7);
    }
    const circle = carriedShape(circleShape, carrying, 'new');
    within(circle?.kind === 'circle' ? circle.radius : 0, 83, 1e-7);
  });

  test('a box stays upright and holds the turned one', () => {
    const box = carriedShape(boxShape, carrying, 'new');
    if (box?.kind !== 'box') throw new Error('no box');
    for (const corner of [at(50, 60), at(80, 60), at(50, 80), at(80, 80)].map(moved)) {
      expect(corner.x).toBeGreaterThan(box.x - 1e-6);
      expect(corner.x).toBeLessThan(box.x + box.width + 1e-6);
      expect(corner.y).toBeGreaterThan(box.y - 1e-6);
      expect(corner.y).toBeLessThan(box.y + box.height + 1e-6);
    }
  });

  test('a line that was on all frames for what it stood for is a plain one on its own frame; a plain one stays on all', () => {
    const line = { id: '9', kind: 'line', a: at(1, 2), b: at(1, 90), lengthMm: null, carried: true } as const;
    const plumb = carriedShape({ ...line, role: 'plumb' }, carrying, 'new');
    expect(plumb).toMatchObject({ role: null });
    expect(plumb).not.toHaveProperty('carried');
    expect(carriedShape({ ...line, role: null }, carrying, 'new')).toMatchObject({ carried: true });
  });

  test('with one of them, or none, the size of the picture decides', () => {
    const one = carryingBetween(player('right', [640, 480], { ball: at(1, 1) }), to);
    expect(one.by).toBe('size');
    expect(one.place(at(320, 240))).toEqual(at(960, 540));
    within(one.scale, 2.25, 1e-12);
  });
});
