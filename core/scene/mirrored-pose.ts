import type { Pose } from './swing-motion.ts';
import { mirror } from './vector.ts';
import type { Vector } from './vector.ts';

/** The same pose seen in a mirror that stands square to the target line: a left-hander's. */
export function mirroredPose(pose: Pose): Pose {
  return mirrored(pose);
}

/** All vectors of what is made of vectors only, however deep. */
function mirrored<T extends object>(parts: T): T {
  const turned = Object.entries(parts).map(([name, part]: [string, object]) => [
    name,
    isVector(part) ? mirror(part) : mirrored(part),
  ]);
  return Object.fromEntries(turned) as T;
}

function isVector(part: object): part is Vector {
  return 'x' in part;
}
