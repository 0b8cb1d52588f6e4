import type { PictureSize } from '../../core/geometry/ground-camera.ts';
import type { GroundMark, GroundPoint } from '../../core/geometry/ground-marks.ts';
import type { Handedness, View } from '../../core/model/words.ts';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { add, cross, dot, scale, subtract, unit, UP, vector } from '../../core/scene/vector.ts';
import { matrixOf, project } from '../../core/scene/camera.ts';
import type { Camera } from '../../core/scene/camera.ts';
import { cameraOf } from '../../core/scene/truth.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';

/** Cameras of the invented scene, and the ground as they see it: metres and y up there, mm and y toward the ball here. */
export interface GroundScene {
  readonly camera: Camera;
  readonly picture: PictureSize;
  readonly handedness: Handedness;
  readonly marks: readonly GroundMark[];
}

/** The demo's own ground marks, exactly where its camera sees them. */
export function demoGround(view: View, handedness: Handedness): GroundScene {
  const scenario = demoScenario('then', handedness);
  const camera = cameraOf(scenario, view);
  const ground = scenario.surroundings.groundMarks.map(({ x, z }) => ({ x: 1000 * x, y: 1000 * z }));
  return { camera, picture: scenario.picture, handedness, marks: seenBy(camera, handedness, ground) };
}

/** The camera turned about its own axis: + leans the true vertical to the right in the picture, radians. */
export function rolled(camera: Camera, by: number): Camera {
  const [right, down, away] = camera.turn;
  const [cos, sin] = [Math.cos(by), Math.sin(by)];
  return {
    ...camera,
    turn: [subtract(scale(right, cos), scale(down, sin)), add(scale(right, sin), scale(down, cos)), away],
  };
}

/** Where a camera sees places on the ground; throws when one is behind it. */
export function seenBy(camera: Camera, handedness: Handedness, ground: readonly GroundPoint[]): GroundMark[] {
  return ground.map((place) => {
    const seen = project(camera, vector((inWorld(handedness) * place.x) / 1000, 0, place.y / 1000));
    if (seen === null) throw new Error('seenBy: the place is behind the camera');
    return { ground: place, picture: { x: seen.x, y: seen.y } };
  });
}

/** The world's x is a right-hander's target; a left-hander's lies the other way. */
function inWorld(handedness: Handedness): 1 | -1 {
  return handedness === 'right' ? 1 : -1;
}

/** The map from the ground to the picture by the camera's own matrix, scaled to end in 1. */
export function trueMap(camera: Camera, handedness: Handedness): number[][] {
  const rows = matrixOf(camera).map((row) => {
    const [x = Number.NaN, , z = Number.NaN, one = Number.NaN] = row;
    return [(inWorld(handedness) * x) / 1000, z / 1000, one];
  });
  const last = rows[2]?.[2] ?? Number.NaN;
  return rows.map((row) => row.map((value) => value / last));
}

/** What a camera's numbers truly are, in the words of the ground (mm, radians). */
export function trueNumbers(camera: Camera, handedness: Handedness) {
  const [right, down, away] = camera.turn;
  const side = inWorld(handedness);
  const x = 1000 * side * camera.centre.x;
  const y = 1000 * camera.centre.z;
  return {
    focal: camera.intrinsics.fx,
    x,
    y,
    height: 1000 * camera.centre.y,
    distance: Math.hypot(x, y),
    heading: Math.atan2(away.z, side * away.x),
    pitch: Math.asin(dot(away, UP)),
    roll: Math.atan2(dot(right, UP), -dot(down, UP)),
  };
}

/**
 * An invented scene: a camera 3 to 9 m from the player, 0.7 to 2.2 m high, anywhere round, rolled by up to 15 degrees, that
 * looks at the ground near the ball through a lens of 0.7 to 2 picture widths; and `count` marks spread over 2 x 2 m.
 */
export function randomGround(numbers: Seeded, count: number): GroundScene {
  const between = (low: number, high: number): number => low + (high - low) * numbers.uniform();
  const picture = { width: 1920, height: 1080 };
  const around = between(0, 2 * Math.PI);
  const away = between(3, 9);
  const from = vector(away * Math.cos(around), between(0.7, 2.2), away * Math.sin(around));
  const forward = unit(subtract(vector(between(-0.5, 0.5), between(0, 0.8), between(-0.5, 0.5)), from));
  const right = unit(cross(forward, UP));
  const focal = picture.width * between(0.7, 2);
  const level: Camera = {
    intrinsics: { fx: focal, skew: 0, cx: picture.width / 2, fy: focal, cy: picture.height / 2 },
    turn: [right, cross(forward, right), forward],
    centre: from,
  };
  const camera = rolled(level, between(-0.26, 0.26));
  const handedness = numbers.uniform() < 0.5 ? 'left' : 'right';
  // Four near the corners, so that they always lie in general position; the others anywhere between.
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ] as const;
  const ground = Array.from({ length: count }, (_, i) => {
    const corner = corners[i];
    return corner === undefined
      ? { x: between(-1000, 1000), y: between(-1000, 1000) }
      : { x: corner[0] * between(600, 1000), y: corner[1] * between(600, 1000) };
  });
  return { camera, picture, handedness, marks: seenBy(camera, handedness, ground) };
}

/** The marks placed by a hand that is off by `sigma` px, in x and in y. */
export function placedAgain(marks: readonly GroundMark[], sigma: number, numbers: Seeded): GroundMark[] {
  return marks.map(({ ground, picture }) => ({
    ground,
    picture: { x: picture.x + sigma * numbers.normal(), y: picture.y + sigma * numbers.normal() },
  }));
}
