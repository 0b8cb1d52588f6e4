import type { PicturePoint } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';

/** How a camera stands off the place that it should stand at, radians and metres. */
export interface Standing {
  /** + it looks to the right of its line. */
  readonly yaw: number;
  /** + it looks up. */
  readonly pitch: number;
  readonly distance: number;
  /** Part by which the lens moves what lies half a diagonal from the middle outward. */
  readonly lens: number;
}

/**
 * The ray through a place in the picture meets the plane of that depth, square to the view's line; where it does, seen from
 * far off along the line. The camera stands level `distance` from the ankles and looks at them, turned by yaw and pitch
 * about them (R. Hartley & A. Zisserman, Multiple View Geometry, chapter 6). At no depth, yaw, pitch and lens nothing moves.
 */
export function lookFrom(
  { width, height }: Pick<MarkedClip, 'width' | 'height'>,
  perMetre: number,
  { yaw, pitch, distance, lens }: Standing,
) {
  const [middleX, middleY] = [width / 2, height / 2];
  const halfDiagonal = Math.hypot(middleX, middleY);
  const [sin, cos, tilt, level] = [Math.sin(yaw), Math.cos(yaw), Math.sin(pitch), Math.cos(pitch)];
  // Axes: to the right, up, and from the player to the camera. The camera looks forward; the picture goes right and down.
  const [forwardX, forwardY, forwardZ] = [sin * level, tilt, -cos * level];
  const [rightX, rightZ] = [cos, sin];
  const [downX, downY, downZ] = [sin * tilt, -level, -cos * tilt];
  return ({ x, y }: PicturePoint, depth: number): PicturePoint => {
    const [offX, offY] = [x - middleX, y - middleY];
    const bend = 1 - lens * ((offX * offX + offY * offY) / (halfDiagonal * halfDiagonal));
    // Metres at the ankles' distance: no difference of large numbers is taken, however far the camera stands.
    const [u, v] = [(offX * bend) / perMetre, (offY * bend) / perMetre];
    const [besideX, besideY, besideZ] = [u * rightX + v * downX, v * downY, u * rightZ + v * downZ];
    const rayZ = besideZ / distance + forwardZ;
    const across = (beside: number, forward: number): number =>
      (forwardZ * beside - forward * besideZ + depth * (beside / distance + forward)) / rayZ;
    return { x: middleX + perMetre * across(besideX, forwardX), y: middleY - perMetre * across(besideY, forwardY) };
  };
}
