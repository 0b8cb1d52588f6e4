import { describe, expect, test } from 'vitest';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import { VIEWS } from '../../../core/model/words.ts';
import { groundMarksOf, plumbOf, knownLengthOf } from '../../../core/scene/still-marks.ts';
import { headBoxAt, truthOf } from '../../../core/scene/truth.ts';
import { within } from '../../support/within.ts';

const right = demoScenario('now', 'right');
const left = demoScenario('now', 'left');

describe.each(VIEWS)('truth %s', (view) => {
  test('a left-hander is the picture mirrored left to right', () => {
    for (const frame of [0, 100, 144, 175, 240]) {
      const one = truthOf(right, view, frame);
      const other = truthOf(left, view, frame);
      for (const point of BODY_POINTS) {
        within(other[point].x, right.picture.width - one[point].x, 1e-8, point);
        within(other[point].y, one[point].y, 1e-8, point);
      }
    }
  });

  test('every point is in the picture in every frame, but the flying ball and the club high in the follow-through', () => {
    for (let frame = 0; frame < right.frameCount; frame += 1) {
      const points = truthOf(right, view, frame);
      for (const point of BODY_POINTS) {
        if (point === 'ball' || (point === 'clubhead' && frame > 190 && frame < 215)) continue;
        const { x, y } = points[point];
        expect(
          x >= 0 && y >= 0 && x <= right.picture.width && y <= right.picture.height,
          `${point} ${String(frame)}`,
        ).toBe(true);
      }
    }
  });

  test('the head is in the middle of its box, the plumb upright, the known length a metre, the marks in the picture', () => {
    const box = headBoxAt(right, view, 0);
    const head = truthOf(right, view, 0)['head-centre'];
    within(box.x + box.width / 2, head.x, 1e-9);
    within(box.y + box.height / 2, head.y, 1e-9);
    const [upper, lower] = plumbOf(right, view);
    within(upper.x, lower.x, 1e-9, 'plumb');
    expect(lower.y - upper.y).toBeGreaterThan(300);
    within(knownLengthOf(right, view).lengthMm, 1000, 1e-9);
    expect(groundMarksOf(right, view).length).toBeGreaterThanOrEqual(4);
  });
});

test('signs: face on the target is picture-right, down the line the ball is', () => {
  const face = truthOf(right, 'face-on', 0);
  expect(face['lead-hip'].x).toBeGreaterThan(face['trail-hip'].x);
  const line = truthOf(right, 'down-the-line', 0);
  expect(line.ball.x).toBeGreaterThan(line.tailbone.x);
});
