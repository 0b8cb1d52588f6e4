import { fitGroundCamera } from '../../geometry/fit-ground-camera.ts';
import type { GroundCameraFit, GroundCameraRefusal } from '../../geometry/fit-ground-camera.ts';
import { yawOf } from '../../geometry/ground-camera.ts';
import { distort } from '../../geometry/lens.ts';
import type { Lens } from '../../geometry/lens.ts';
import type { LensRefusal } from '../../geometry/fit-lens.ts';
import { sideOf } from '../../geometry/point.ts';
import { PLANES } from '../../model/mark.ts';
import type { GroundShape, Plane } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Handedness, View } from '../../model/words.ts';
import { plumbOf, scaleOf } from './calibration.ts';
import type { CalibratedClip } from './calibration.ts';
import { groundOf, groundPairs } from './ground.ts';
import type { GroundMap, GroundRefusal } from './ground.ts';
import { lensOf, straightened } from './lens-of-clip.ts';
import { remembered } from '../memoise.ts';
import type { ClipLens } from './lens-of-clip.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';

/** A number of the camera with its standard uncertainty. */
export interface CameraNumber {
  readonly value: number;
  readonly u: number;
}

/** Where the camera stood, from the ground marks. Lengths in metres, angles in radians. */
export interface CameraPlace {
  readonly state: 'told';
  /** The lens above the ground. */
  readonly height: CameraNumber;
  /** From the middle of the marks, along the ground. */
  readonly distance: CameraNumber;
  /**
   * How far it looked beside the target line (down the line), or beside the line square to it (face on): + to the right of
   * who stands behind the camera.
   */
  readonly yaw: CameraNumber;
  /** + looked up. */
  readonly pitch: CameraNumber;
  /** How far the true vertical leans in the picture, + to the right. */
  readonly roll: CameraNumber;
  /** Marks lie as for a player of the other hand: some are mixed up. */
  readonly isMixedUp: boolean;
  /** The marks contradict a camera that looks through the picture's middle: the picture was cut or steadied. */
  readonly isStrained: boolean;
  /** How far each mark lies from where this camera sees it, pixels, in the order of the marks. */
  readonly residuals: readonly number[];
}

export interface CameraNotTold {
  readonly state: 'not-told';
  readonly reason: GroundCameraRefusal['reason'];
  /** Places in the list of marks that it is about; empty where it is about all of them. */
  readonly marks: readonly number[];
}

/** What the lens does at the picture's corners: pixels by which it shows them nearer to the middle (+) or farther (-). */
export type LensReport =
  | { readonly state: 'told'; readonly corner: CameraNumber; readonly edges: number }
  | { readonly state: 'not-told'; readonly reason: LensRefusal; readonly edges: number };

/** Centimetres a pixel in a plane, from so many known lengths in it. */
export interface ScaleReport extends CameraNumber {
  readonly plane: Plane;
  readonly count: number;
}

/** All that the marks of a clip tell of its camera; null where nothing of a kind is marked. */
export interface CameraReport {
  readonly ground: CameraPlace | CameraNotTold | null;
  readonly lens: LensReport | null;
  /** Of plumbs and levels: how far the true vertical leans to the right in the picture, radians. */
  readonly upright: (CameraNumber & { readonly count: number }) | null;
  readonly scales: readonly ScaleReport[];
}

/**
 * Clicks alone take a clip beyond this once in 16,000. At 3 it was once in 300, which is felt: a swing whose camera is taken to be
 * untold, beside others that are corrected, pulls the mean of its lesson away.
 */
const MOST_STRAIN = 4;
const MM_PER_M = 1000;

/** Works out what the marks of a clip tell of its camera, for a player of that hand. */
export function cameraOfClip(clip: MarkedClip, handedness: Handedness, placing: PlacingErrors): CameraReport {
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const side = sideOf(handedness);
  const lens = lensOf(clip, sigma);
  const straight = straightened(clip, sigma).clip;
  const plumb = plumbOf(straight, side, sigma);
  return {
    ground: cameraPlaceOf(straight, side, sigma),
    lens: lens === null ? null : lensReport(lens, clip),
    upright:
      plumb === null ? null : { value: side * plumb.quantity.value, u: plumb.quantity.u, count: plumb.shapeIds.length },
    scales: scalesOf(straight, sigma),
  };
}

/** The set of ground marks that a clip is read by, wherever it is kept, with the map that it gives. null without any. */
export function groundMarksOf(clip: MarkedClip, placing: PlacingErrors): GroundMap | GroundRefusal | null {
  const { sigma } = placingSigma(placing, clip.height, null, false);
  return groundOf(straightened(clip, sigma).clip, sigma);
}

/** Where the camera of a clip stood; null without ground marks. `sigma`: placing error of a mark, pixels. */
export function cameraPlaceOf(
  clip: MarkedClip & CalibratedClip,
  side: 1 | -1,
  sigma: number,
): CameraPlace | CameraNotTold | null {
  const map = groundOf(clip, sigma);
  if (map === null) return null;
  if ('reason' in map) return { state: 'not-told', reason: map.reason, marks: map.marks };
  const { width, height, view, straighten } = clip;
  return placeOfMarks(map.shape, side, map.sigma, width, height, view, straighten);
}

/** The camera as its marks tell it, ground counted from their middle in mm; null where they do not. `sigma`: as above. */
export function groundCameraOf(clip: MarkedClip & CalibratedClip, sigma: number): GroundCameraFit | null {
  const map = groundOf(clip, sigma);
  if (map === null || 'reason' in map) return null;
  const fit = fitOfMarks(map.shape, map.sigma, clip.width, clip.height, clip.straighten);
  return fit.state === 'fitted' ? fit : null;
}

const fitOfMarks = remembered(
  (shape: GroundShape, sigma: number, width: number, height: number, straighten: CalibratedClip['straighten']) => {
    // Counted from the middle of the marks, wherever the coach measured from.
    const middle = (of: 'target' | 'ball') =>
      shape.places.reduce((sum, place) => sum + place[of], 0) / shape.places.length;
    const pairs = groundPairs(shape, straighten, { target: middle('target'), ball: middle('ball') });
    return fitGroundCamera(pairs, { width, height }, sigma);
  },
);

const placeOfMarks = remembered(cameraOfMarks);

function cameraOfMarks(
  shape: GroundShape,
  side: 1 | -1,
  sigma: number,
  width: number,
  height: number,
  view: View,
  straighten: CalibratedClip['straighten'],
): CameraPlace | CameraNotTold {
  const fit = fitOfMarks(shape, sigma, width, height, straighten);
  if (fit.state === 'refused') return { state: 'not-told', reason: fit.reason, marks: fit.marks };
  const { camera, uncertainty } = fit;
  const told = (of: keyof typeof camera, unit = 1): CameraNumber => ({
    value: camera[of] / unit,
    u: uncertainty[of] / unit,
  });
  // The ball's side and the target's are on the right of a right-handed player's picture.
  const yaw = sideOf(fit.handedness) * yawOf(camera.heading, view);
  return {
    state: 'told',
    height: told('height', MM_PER_M),
    distance: told('distance', MM_PER_M),
    yaw: { value: yaw, u: uncertainty.heading },
    pitch: told('pitch'),
    roll: told('roll'),
    isMixedUp: sideOf(fit.handedness) !== side,
    isStrained: fit.strain > MOST_STRAIN,
    residuals: fit.residuals,
  };
}

function lensReport(lens: NonNullable<ReturnType<typeof lensOf>>, clip: MarkedClip): LensReport {
  const edges = lens.shapeIds.length;
  if (lens.state === 'refused') return { state: 'not-told', reason: lens.reason, edges };
  return { state: 'told', corner: cornerOf(lens, clip), edges };
}

/** How far the lens moves the corner of the picture toward its middle, with the ± of the lens's own steps. */
function cornerOf({ estimate }: ClipLens, { width, height }: MarkedClip): CameraNumber {
  const inward = (lens: Lens): number => {
    const seen = distort(lens, { x: 0, y: 0 });
    if (seen === null) return Number.NaN;
    return Math.hypot(width / 2, height / 2) - Math.hypot(seen.x - width / 2, seen.y - height / 2);
  };
  const value = inward(estimate.lens);
  const steps = estimate.steps.map(({ k1, k2 }) => {
    const by = inward({ ...estimate.lens, k1: estimate.lens.k1 + k1, k2: estimate.lens.k2 + k2 }) - value;
    return Number.isFinite(by) ? by : 0;
  });
  return { value, u: Math.hypot(...steps) };
}

function scalesOf(clip: MarkedClip & CalibratedClip, sigma: number): readonly ScaleReport[] {
  return PLANES.flatMap((plane): readonly ScaleReport[] => {
    const scale = scaleOf(clip, plane, sigma);
    if (scale === null || !liesIn(clip, scale.shapeIds, plane)) return [];
    return [{ plane, value: scale.quantity.value, u: scale.quantity.u, count: scale.shapeIds.length }];
  });
}

/** Whether those known lengths lie in the plane, and do not stand in for it. */
function liesIn({ marks }: MarkedClip, shapeIds: readonly string[], plane: Plane): boolean {
  return marks
    .flatMap(({ shapes }) => shapes)
    .some((shape) => {
      if (!shapeIds.includes(shape.id)) return false;
      return (shape.kind === 'line' ? (shape.plane ?? 'player') : 'ball') === plane;
    });
}
