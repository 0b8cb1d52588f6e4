import { expect, test } from 'vitest';
import { cameraAimedAt, project } from '../../../core/scene/camera.ts';
import { vector } from '../../../core/scene/vector.ts';
import { within } from '../../support/within.ts';

/*
 * By hand: the camera stands 5 m in front of the origin on the z axis and looks back along it, focal length 2000 px,
 * picture 1440 x 1080. A point 0.5 m toward +x and 0.25 m up, 4 m from the lens (z = 1):
 * x = 720 + 2000 * 0.5 / 4 = 970; y = 540 - 2000 * 0.25 / 4 = 415.
 */
const camera = cameraAimedAt({ from: vector(0, 0, 5), to: vector(0, 0, 0), focal: 2000 }, 1440, 1080);

test('a point is where the hand-worked example puts it', () => {
  const seen = project(camera, vector(0.5, 0.25, 1));
  within(seen?.x ?? 0, 970, 1e-9);
  within(seen?.y ?? 0, 415, 1e-9);
  within(seen?.depth ?? 0, 4, 1e-12);
});

test('the point looked at is the middle of the picture', () => {
  expect(project(camera, vector(0, 0, 0))).toEqual({ x: 720, y: 540, depth: 5 });
});

test('a point beside or behind the lens is not seen', () => {
  expect(project(camera, vector(0, 0, 5))).toBeNull();
  expect(project(camera, vector(1, 0, 6))).toBeNull();
});

test('a camera without a direction is refused', () => {
  expect(() => cameraAimedAt({ from: vector(1, 1, 1), to: vector(1, 1, 1), focal: 10 }, 2, 2)).toThrow('direction');
});
