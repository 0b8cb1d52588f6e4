import type { GroundCameraFit } from '../../geometry/fit-ground-camera.ts';
import { toGround, toPicture } from '../../geometry/homography.ts';
import { entry } from '../../geometry/linear.ts';
import type { Matrix } from '../../geometry/linear.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { CalibratedClip } from './calibration.ts';
import { cameraPlaceOf, groundCameraOf } from './camera-of-clip.ts';
import type { CameraNumber, CameraPlace } from './camera-of-clip.ts';

/** A camera that ground marks tell, as the player's readings need it. */
export interface ToldCamera extends Pick<CameraPlace, 'yaw' | 'pitch'> {
  /** From the middle between the ankles at address, along the ground, metres. */
  readonly distance: CameraNumber;
  /**
   * Pixels of a metre across the picture there, as sure as marks and ankles were clicked, and the part by which it is off besides,
   * always so with one player: how high his ankles stand. null where no ankles tell where he is, or tell a place that nobody films.
   */
  readonly perMetre: (CameraNumber & { readonly alwaysU: number }) | null;
  /** The name of one of its numbers, by the marks that tell it. */
  readonly named: (what: string) => string;
}

/** An ankle stands so high over the ground, in a shoe, metres; and its standard uncertainty. Ours. */
const [ANKLE_OVER_GROUND, ANKLE_U] = [0.09, 0.02] as const;

/** Where no ankle is placed: the middle of the marks need not be the player's, metres. A mat reaches to the ball. Ours. */
const MARKS_BESIDE = 0.3;

/** Half of the length across that tells the scale, mm, and the part of 1 px over which slopes are taken. */
const [HALF_LENGTH, STEP] = [250, 1e-3] as const;

const MM_PER_M = 1000;

interface GroundPlace {
  readonly x: number;
  readonly y: number;
}

/**
 * The camera of a clip whose lens is straightened, told by ground marks; null where none tell it, or contradict themselves. A
 * player stands beside the middle of his marks: both ankles at address say where. `side`: 1 for a right-hander. `sigma`:
 * placing error of a mark, pixels.
 */
export function toldCameraOf(clip: MarkedClip & CalibratedClip, side: 1 | -1, sigma: number): ToldCamera | null {
  const place = cameraPlaceOf(clip, side, sigma);
  if (place?.state !== 'told' || place.isMixedUp || place.isStrained) return null;
  const { yaw, pitch, distance } = place;
  const ankles = anklesOf(clip, sigma);
  const [value, beside] = ankles === null ? [distance.value, MARKS_BESIDE] : [ankles.distance.value, ankles.distance.u];
  const named = (what: string) => toldBy(what, yaw.value);
  const perMetre = ankles === null ? null : ankles.perMetre;
  return { yaw, pitch, distance: { value, u: Math.hypot(distance.u, beside) }, perMetre, named };
}

/**
 * The middle between the ankles at address: metres from the camera, with what is unsure of that besides the camera, and
 * pixels of a metre there, with all that is unsure of it. null without both.
 */
function anklesOf(
  clip: MarkedClip & CalibratedClip,
  sigma: number,
): { readonly distance: CameraNumber; readonly perMetre: ToldCamera['perMetre'] } | null {
  const fit = groundCameraOf(clip, sigma);
  const points = marksAt(clip, 'address')?.points ?? {};
  const [lead, trail] = [points['lead-ankle'], points['trail-ankle']];
  if (fit === null || lead === undefined || trail === undefined) return null;
  const { x, y, height, focal, pitch } = fit.camera;
  const left = 1 - (MM_PER_M * ANKLE_OVER_GROUND) / height;
  const at = [lead, trail].map((ankle) => toGround(fit.homography, clip.straighten?.(ankle) ?? ankle));
  const [one, other] = at;
  // A ray that does not come down to the ground tells nothing.
  if (one === null || other === null || one === undefined || other === undefined || left <= 0) return null;
  const middle = { x: (one.x + other.x) / 2 - x, y: (one.y + other.y) / 2 - y };
  const far = left * Math.hypot(middle.x, middle.y);
  // A pixel higher in the picture is so much farther on the ground: D² / (H f).
  const perPixel = far ** 2 / (left * height * focal);
  const clicked = (perPixel * sigma) / Math.SQRT2;
  const alwaysU = (MM_PER_M * ANKLE_U) / (left * height);
  // How far in front of the lens, along its axis.
  const ahead = far * Math.cos(pitch) - left * height * Math.sin(pitch);
  const pixels = (MM_PER_M * focal) / ahead;
  const across = { x: (-middle.y * left) / far, y: (middle.x * left) / far };
  const scaleU = sigma * partPerPixel(fit, { x: x + middle.x, y: y + middle.y }, across);
  const perMetre = { value: pixels, u: pixels * Math.hypot(scaleU, clicked / far), alwaysU };
  return {
    distance: { value: far / MM_PER_M, u: Math.hypot(far * alwaysU, clicked) / MM_PER_M },
    // Who stands over the lens, or behind it, is no player: marks or ankles are wrong.
    perMetre: ahead > 0 && perMetre.u < Infinity ? perMetre : null,
  };
}

/** Part of itself by which a length across the picture, on the ground there, is unsure for placing errors of 1 px. */
function partPerPixel(fit: GroundCameraFit, there: GroundPlace, across: GroundPlace): number {
  const seen = (groundToPicture: Matrix): number => {
    const [from, to] = [-1, 1].map((side) =>
      toPicture(
        { groundToPicture, pictureToGround: [] },
        { x: there.x + side * HALF_LENGTH * across.x, y: there.y + side * HALF_LENGTH * across.y },
      ),
    );
    // Behind the camera a place is nowhere, and nothing is told.
    return from && to ? Math.hypot(to.x - from.x, to.y - from.y) : Number.NaN;
  };
  const { groundToPicture } = fit.homography;
  const changed = (slope: Matrix, by: number): Matrix =>
    groundToPicture.map((row, i) => row.map((value, j) => value + by * entry(slope, i, j)));
  const length = seen(groundToPicture);
  return Math.hypot(...fit.spread.map((slope) => (seen(changed(slope, STEP)) / length - 1) / STEP));
}

/**
 * The name of what marks tell. Marks that are copied from swing to swing tell it to the last digit and are one error; marks that
 * are clicked anew never do.
 */
export function toldBy(what: string, value: number): string {
  return `${what}, told as ${String(value)}`;
}
