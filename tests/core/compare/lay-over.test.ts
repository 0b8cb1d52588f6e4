import { describe, expect, test } from 'vitest';
import type { ClipOfPlayer } from '../../../core/compare/carry-shapes.ts';
import { layOver, placeBy } from '../../../core/compare/lay-over.ts';
import type { LaidOver } from '../../../core/compare/lay-over.ts';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import type { Handedness, View } from '../../../core/model/words.ts';
import { VIEWS } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import type { Scenario } from '../../../core/scene/scenario.ts';
import { truthOf } from '../../../core/scene/truth.ts';
import { vector } from '../../../core/scene/vector.ts';
import { within } from '../../support/within.ts';

const FRAME = { index: 3, pts: 3 };

function clipWith(
  points: Partial<Record<BodyPointId, PicturePoint>>,
  view: View = 'face-on',
  handedness: Handedness = 'right',
): ClipOfPlayer {
  const placed = Object.fromEntries(Object.entries(points).map(([id, at]) => [id, { ...at, hidden: false }]));
  const marks = [{ frame: FRAME, points: placed, shapes: [] }];
  return {
    handedness,
    clip: { view, width: 400, height: 300, checkpoints: { address: { ...FRAME, ticks: 1 } }, marks },
  };
}

function laid(then: ClipOfPlayer, now: ClipOfPlayer): LaidOver {
  const found = layOver(then, now);
  if (found === null) throw new Error('nothing lies over anything');
  return found;
}

function lies(at: PicturePoint, x: number, y: number): void {
  // Rounding of a handful of sums of hundreds.
  within(at.x, x, 1e-9);
  within(at.y, y, 1e-9);
}

describe('then over now, by hand', () => {
  test('twice as large and moved: ball and feet meet, upright as well as turned', () => {
    const then = clipWith({ ball: { x: 100, y: 200 }, 'lead-toe': { x: 140, y: 200 } });
    const now = clipWith({ ball: { x: 110, y: 250 }, 'lead-toe': { x: 190, y: 250 } });
    const { by, over, beside } = laid(then, now);
    expect(by).toBe('ground');
    // x' = 2 x - 90, y' = 2 y - 150.
    for (const way of [over, beside]) {
      lies(placeBy(way, { x: 100, y: 200 }), 110, 250);
      lies(placeBy(way, { x: 140, y: 200 }), 190, 250);
      lies(placeBy(way, { x: 120, y: 100 }), 150, 50);
    }
  });

  test('a quarter of a turn: over it is turned back, beside it stays as it was filmed', () => {
    const then = clipWith({ ball: { x: 100, y: 100 }, 'lead-toe': { x: 100, y: 140 } });
    const now = clipWith({ ball: { x: 200, y: 200 }, 'lead-toe': { x: 240, y: 200 } });
    const { over, beside } = laid(then, now);
    lies(placeBy(over, { x: 100, y: 140 }), 240, 200);
    // The middle of both, (100, 120), lies where it lies over; round it nothing is turned.
    lies(placeBy(beside, { x: 100, y: 120 }), 220, 200);
    lies(placeBy(beside, { x: 100, y: 140 }), 220, 220);
    expect([beside.b, beside.c]).toEqual([0, 0]);
  });

  test('a left-handed then: over it is mirrored, beside it is not', () => {
    // 400 wide: mirrored the ball is at 300 and the toe at 260, which is now's moved by 10.
    const then = clipWith({ ball: { x: 100, y: 200 }, 'lead-toe': { x: 140, y: 200 } }, 'face-on', 'left');
    const now = clipWith({ ball: { x: 310, y: 200 }, 'lead-toe': { x: 270, y: 200 } });
    const { mirrored, over, beside } = laid(then, now);
    expect(mirrored).toBe(true);
    lies(placeBy(over, { x: 100, y: 200 }), 310, 200);
    lies(placeBy(over, { x: 140, y: 200 }), 270, 200);
    expect(beside.a).toBeGreaterThan(0);
    lies(placeBy(beside, { x: 120, y: 200 }), 290, 200);
  });

  test('without ball and feet in both it goes by the size of the picture, and says so', () => {
    const { by, over } = laid(clipWith({ ball: { x: 100, y: 200 } }), clipWith({}));
    expect(by).toBe('size');
    lies(placeBy(over, { x: 12, y: 34 }), 12, 34);
  });

  test('two views have no ground in common', () => {
    expect(layOver(clipWith({}, 'face-on'), clipWith({}, 'down-the-line'))).toBeNull();
  });
});

describe('then over now, of the made-up scene', () => {
  const scene = demoScenario('now');
  const { address } = checkpointFrames(scene);
  const seenFrom = (view: View, scenario: Scenario) => clipWith(truthOf(scenario, view, address), view);

  test.each(VIEWS)('%s: the same swing filmed from a fifth farther lies on itself, head and all', (view) => {
    const place = scene.cameras[view];
    const back = (from: number, to: number) => to + 1.2 * (from - to);
    const from = vector(back(place.from.x, place.to.x), back(place.from.y, place.to.y), back(place.from.z, place.to.z));
    const farther = { ...scene, cameras: { ...scene.cameras, [view]: { ...place, from } } };
    const [then, now] = [seenFrom(view, farther), seenFrom(view, scene)];
    const { by, over } = laid(then, now);
    expect(by).toBe('ground');
    within(Math.hypot(over.a, over.b), 1.2, 0.05, 'as much larger as it was farther');
    const head = ({ clip }: ClipOfPlayer) => clip.marks[0]?.points['head-centre'] ?? { x: NaN, y: NaN };
    const tall = Math.abs(head(now).y - (now.clip.marks[0]?.points.ball?.y ?? NaN));
    const on = placeBy(over, head(then));
    // The head is not where the feet are: from elsewhere it is seen against another ground. A twentieth of the player.
    within(Math.hypot(on.x - head(now).x, on.y - head(now).y) / tall, 0, 0.05);
  });
});
