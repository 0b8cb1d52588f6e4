import { describe, expect, test } from 'vitest';
import {
  bodyPointsOf,
  LANDMARKS,
  middleLandmarks,
  squareRound,
  wholePicture,
  type Landmark,
} from '../../../core/propose/pose.ts';

const at = (x: number, y: number, seen = 1): Landmark => ({ x, y, seen });
const looks = (changed: Readonly<Record<number, Landmark>>): readonly Landmark[] =>
  Array.from({ length: LANDMARKS }, (_, place) => changed[place] ?? at(500, 500));

describe('the square round a body', () => {
  test('is all of the picture before anything is known', () => {
    expect(wholePicture(1920, 1080)).toEqual({ centre: { x: 960, y: 540 }, side: 1920, turn: 0 });
  });

  test('has the body upright in it, a quarter larger than the circle that the model tells', () => {
    expect(squareRound(looks({ 33: at(400, 600), 34: at(400, 200) }))).toEqual({
      ...{ centre: { x: 400, y: 600 }, side: 1000, turn: 0 },
    });
    // Leaning to the right of the picture by a quarter turn.
    const leaning = squareRound(looks({ 33: at(400, 600), 34: at(800, 600) }));
    expect(leaning?.turn).toBeCloseTo(Math.PI / 2, 12);
    expect(squareRound(looks({ 33: at(400, 600), 34: at(401, 600) }))).toBeNull();
  });
});

describe('body points of landmarks', () => {
  const square = { centre: { x: 500, y: 500 }, side: 1000, turn: 0 };
  const player = looks({
    ...{
      7: at(520, 190),
      8: at(480, 210),
      11: at(600, 300),
      12: at(400, 300),
      25: at(580, 700, 0.2),
      26: at(420, 700),
    },
    ...{ 23: at(550, 520), 24: at(450, 520), 27: at(590, 900), 28: at(410, 900) },
  });

  test('are lead and trail by the hand that the player plays with', () => {
    const right = bodyPointsOf(player, square, { view: 'face-on', handedness: 'right' });
    expect([right['lead-shoulder']?.x, right['trail-shoulder']?.x]).toEqual([600, 400]);
    const left = bodyPointsOf(player, square, { view: 'face-on', handedness: 'left' });
    expect([left['lead-shoulder']?.x, left['trail-shoulder']?.x]).toEqual([400, 600]);
  });

  test('of a player whom the model took for one from behind, face on, are turned round', () => {
    const turned = looks({ 11: at(400, 300), 12: at(600, 300), 27: at(410, 900), 28: at(590, 900) });
    const { 'lead-ankle': lead, 'lead-shoulder': shoulder } = bodyPointsOf(turned, square, {
      ...{ view: 'face-on', handedness: 'right' },
    });
    expect([lead?.x, shoulder?.x]).toEqual([590, 600]);
  });

  test('are those of the view; neck base and tailbone are derived', () => {
    const down = bodyPointsOf(player, square, { view: 'down-the-line', handedness: 'right' });
    expect(down['head-centre']).toMatchObject({ x: 500, y: 200 });
    expect(down['neck-base']).toMatchObject({ x: 500, y: 265 });
    // Behind the hips: a right-hander faces the right of the picture.
    expect(down.tailbone?.x).toBeLessThan(500);
    expect(down['lead-elbow']).toBeUndefined();
    expect(bodyPointsOf(player, square, { view: 'face-on', handedness: 'right' }).tailbone).toBeUndefined();
    for (const none of ['clubhead', 'grip-end', 'ball'] as const) expect(down[none]).toBeUndefined();
  });

  test('tell how sure they are: less of what is covered, and all by the size of the body', () => {
    const one = bodyPointsOf(player, square, { view: 'face-on', handedness: 'right' });
    expect(one['lead-knee']?.guess).toBe(2 * (one['trail-knee']?.guess ?? 0));
    const small = bodyPointsOf(player, { ...square, side: 500 }, { view: 'face-on', handedness: 'right' });
    expect(small['lead-hip']?.guess).toBe((one['lead-hip']?.guess ?? 0) / 2);
  });
});

test('of several looks the middle one counts, landmark by landmark', () => {
  const each = [looks({ 5: at(1, 9) }), looks({ 5: at(2, 7) }), looks({ 5: at(900, 8) })];
  expect(middleLandmarks(each)[5]).toEqual(at(2, 8));
  expect(middleLandmarks(each.slice(0, 2))[5]).toEqual(at(1.5, 8));
});
