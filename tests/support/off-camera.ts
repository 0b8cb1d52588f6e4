import { distort } from '../../core/geometry/lens.ts';
import type { Lens } from '../../core/geometry/lens.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import type { View } from '../../core/model/words.ts';
import { cameraAimedAt } from '../../core/scene/camera.ts';
import type { Camera } from '../../core/scene/camera.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { inPicture } from '../../core/scene/truth.ts';
import { add, length, mirror, radians, scale, subtract, vector } from '../../core/scene/vector.ts';
import type { Vector } from '../../core/scene/vector.ts';
import { rolled } from './ground-scenes.ts';

/** How a camera stands off the line that it should look along. All 0 and no lens: as the scenario has it. */
export interface OffBy {
  /** Degrees that it is carried round the player, still looking at the same place: + is over to the target's or ball's side. */
  readonly yaw: number;
  /** Degrees that it is turned about its own axis: + leans the true vertical to the right in the picture. */
  readonly roll: number;
  /** Metres that the tripod is higher. The camera stays level, so that verticals stay parallel. */
  readonly raised: number;
  /** Metres that the camera is higher while it still looks at the same place, so that it looks down a little. */
  readonly above: number;
  /** Metres that it stands nearer; the player stays as large in the picture. */
  readonly nearer: number;
  /** Its lens, told by how far it moves places half a picture's diagonal from the middle; null = a pinhole. */
  readonly lens: { readonly k1: number; readonly k2: number } | null;
}

export const ON_LINE: OffBy = { yaw: 0, roll: 0, raised: 0, above: 0, nearer: 0, lens: null };

const BARREL = { k1: -0.08, k2: 0 };

/** Both cameras off in every way at once. */
export const OFF_THE_LINE: Readonly<Record<View, OffBy>> = {
  'down-the-line': { ...ON_LINE, yaw: 8, roll: 2.5, raised: -0.2, lens: BARREL },
  'face-on': { ...ON_LINE, yaw: -6, roll: -2, raised: 0.3, lens: BARREL },
};

/** A camera and its lens: what lies where in the picture, and where it would lie without the lens. */
export interface OffCamera {
  readonly camera: Camera;
  readonly lens: Lens | null;
  /** Places in the world, as a right-hander has them, in pixels; throw where nothing is seen. */
  readonly ideal: (world: Vector) => PicturePoint;
  readonly seen: (world: Vector) => PicturePoint;
  /** What the lens makes of a place in the picture. */
  readonly bend: (ideal: PicturePoint) => PicturePoint;
}

/** The camera of a view of a scenario, off by so much. */
export function offCamera(scenario: Scenario, view: View, off: OffBy): OffCamera {
  const { yaw, roll, raised, above, nearer, lens: bends } = off;
  const { width, height } = scenario.picture;
  const { from, to, focal: whole } = scenario.cameras[view];
  const far = subtract(from, to);
  const closer = 1 - nearer / length(far);
  const [arm, focal] = [scale(far, closer), whole * closer];
  const [cos, sin] = [Math.cos(radians(yaw)), Math.sin(radians(yaw))];
  const up = vector(0, raised, 0);
  // About the vertical through what it looks at: from the axis of x toward that of z, or from z toward -x.
  const carried = add(to, vector(arm.x * cos - arm.z * sin, arm.y + above, arm.z * cos + arm.x * sin));
  const isLeft = scenario.handedness === 'left';
  const placed = (at: Vector): Vector => (isLeft ? mirror(add(at, up)) : add(at, up));
  const level = cameraAimedAt({ from: placed(carried), to: placed(to), focal }, width, height);
  const camera = rolled(level, radians(roll));
  const centre = { x: width / 2, y: height / 2 };
  const lens: Lens | null =
    bends === null ? null : { focal: Math.hypot(centre.x, centre.y), centre, ...bends, p1: 0, p2: 0, k3: 0 };
  const ideal = (world: Vector) => inPicture(camera, isLeft ? mirror(world) : world);
  const bend = (place: PicturePoint): PicturePoint => {
    const at = lens === null ? place : distort(lens, place);
    if (at === null) throw new Error('offCamera: the lens shows nothing there');
    return at;
  };
  return { camera, lens, ideal, bend, seen: (world) => bend(ideal(world)) };
}
