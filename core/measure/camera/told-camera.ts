import { toGround } from '../../geometry/homography.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { CalibratedClip } from './calibration.ts';
import { cameraPlaceOf, groundCameraOf } from './camera-of-clip.ts';
import type { CameraNumber, CameraPlace } from './camera-of-clip.ts';

/** A camera that ground marks tell, as the player's readings need it. */
export interface ToldCamera extends Pick<CameraPlace, 'yaw' | 'pitch'> {
  /** From the middle between the ankles at address, along the ground, metres. */
  readonly distance: CameraNumber;
  /** The name of one of its numbers, by the marks that tell it. */
  readonly named: (what: string) => string;
}

/** An ankle stands so high over the ground, in a shoe, metres; and its standard uncertainty. Ours. */
const [ANKLE_OVER_GROUND, ANKLE_U] = [0.09, 0.02] as const;

/** Where no ankle is placed: the middle of the marks need not be the player's, metres. A mat reaches to the ball. Ours. */
const MARKS_BESIDE = 0.3;

const MM_PER_M = 1000;

/**
 * The camera of a clip whose lens is straightened, told by ground marks; null where none tell it, or contradict themselves. A
 * player stands beside the middle of his marks: both ankles at address say where. `side`: 1 for a right-hander. `sigma`:
 * placing error of a mark, pixels.
 */
export function toldCameraOf(clip: MarkedClip & CalibratedClip, side: 1 | -1, sigma: number): ToldCamera | null {
  const place = cameraPlaceOf(clip, side, sigma);
  if (place?.state !== 'told' || place.isMixedUp || place.isStrained) return null;
  const { yaw, pitch, distance } = place;
  const own = distanceOfAnkles(clip, sigma);
  const [value, beside] = own === null ? [distance.value, MARKS_BESIDE] : [own.value, own.u];
  const named = (what: string) => toldBy(what, yaw.value);
  return { yaw, pitch, distance: { value, u: Math.hypot(distance.u, beside) }, named };
}

/** Metres from the camera to the middle between the ankles, and what is unsure of it besides the camera. null without both. */
function distanceOfAnkles(clip: MarkedClip & CalibratedClip, sigma: number): CameraNumber | null {
  const fit = groundCameraOf(clip, sigma);
  const points = marksAt(clip, 'address')?.points ?? {};
  const [lead, trail] = [points['lead-ankle'], points['trail-ankle']];
  if (fit === null || lead === undefined || trail === undefined) return null;
  const { x, y, height, focal } = fit.camera;
  const left = 1 - (MM_PER_M * ANKLE_OVER_GROUND) / height;
  const at = [lead, trail].map((ankle) => toGround(fit.homography, clip.straighten?.(ankle) ?? ankle));
  const [one, other] = at;
  // A ray that does not come down to the ground tells nothing.
  if (one === null || other === null || one === undefined || other === undefined || left <= 0) return null;
  const middle = { x: (one.x + other.x) / 2 - x, y: (one.y + other.y) / 2 - y };
  const far = left * Math.hypot(middle.x, middle.y);
  // A pixel higher in the picture is so much farther on the ground: D² / (H f).
  const perPixel = far ** 2 / (left * height * focal);
  const u = Math.hypot((far * MM_PER_M * ANKLE_U) / (left * height), (perPixel * sigma) / Math.SQRT2);
  return { value: far / MM_PER_M, u: u / MM_PER_M };
}

/**
 * The name of what marks tell. Marks that are copied from swing to swing tell it to the last digit and are one error; marks that
 * are clicked anew never do.
 */
export function toldBy(what: string, value: number): string {
  return `${what}, told as ${String(value)}`;
}
