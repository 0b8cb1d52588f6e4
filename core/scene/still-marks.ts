import type { PicturePoint } from '../model/mark.ts';
import type { View } from '../model/words.ts';
import type { Scenario } from './scenario.ts';
import { cameraOf, inPicture } from './truth.ts';
import { mirror, vector } from './vector.ts';
import type { Vector } from './vector.ts';

/** Half the width of a square post, metres. */
export const POST_HALF = 0.05;
/** Heights between which the plumb edge is in the picture of either view, metres. */
const PLUMB_FROM = 0.1;
const PLUMB_TO = 2.1;

/** Two points of a truly vertical edge in the picture, upper one first: the outer edge of the post's face. */
export function plumbOf(scenario: Scenario, view: View): readonly [PicturePoint, PicturePoint] {
  const { foot } = scenario.surroundings.posts[view];
  const out = view === 'face-on' ? POST_HALF : -POST_HALF;
  const at = (height: number): Vector => vector(foot.x + out, height, foot.z + out);
  return [seen(scenario, view, at(PLUMB_TO)), seen(scenario, view, at(PLUMB_FROM))];
}

/** The metre stick that lies across a view, with its true length. It holds in its own plane, near the player's toes. */
export function knownLengthOf(
  scenario: Scenario,
  view: View,
): { readonly ends: readonly [PicturePoint, PicturePoint]; readonly lengthMm: number } {
  const { a, b } = scenario.surroundings.knownLengths[view];
  const lengthMm = Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z) * 1000;
  return { ends: [seen(scenario, view, a), seen(scenario, view, b)], lengthMm };
}

/** The marks on the ground: true place in metres (x along the target line toward the target, z toward the ball), and picture. */
export function groundMarksOf(
  scenario: Scenario,
  view: View,
): readonly { readonly x: number; readonly z: number; readonly picture: PicturePoint }[] {
  return scenario.surroundings.groundMarks.map((mark) => ({
    x: mark.x,
    z: mark.z,
    picture: seen(scenario, view, mark),
  }));
}

function seen(scenario: Scenario, view: View, point: Vector): PicturePoint {
  return inPicture(cameraOf(scenario, view), scenario.handedness === 'left' ? mirror(point) : point);
}
