import type { PicturePoint, Plane } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { valueAt } from '../uncertainty/value-at.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { calibratingShapes } from './calibration.ts';
import { depthsIn } from './depth-of-point.ts';
import type { Depth, Depths } from './depth-of-point.ts';
import { straightened } from './lens-of-clip.ts';
import { lookFrom } from './look-from.ts';
import { pixelsPerMetre } from './picture-scale.ts';
import { ASSUMED_SET_UP } from './set-up-errors.ts';
import type { SetUpErrors } from './set-up-errors.ts';
import { toldCameraOf } from './told-camera.ts';

/**
 * Where the camera of a clip stands, as far as it is told, and what is unsure of it. A place in the picture and its depth
 * give a place in space; that, looked at along the view's own line from far off, is what a reading is about.
 */
export interface CameraStand {
  /** Ground marks tell it: values are corrected for it. Else it is only in the ±. */
  readonly isTold: boolean;
  /** Yaw, pitch, distance and lens, in the order that `look` takes them. */
  readonly quantities: readonly Quantity[];
  /** Of the quantities those that turn the camera: how much they do depends on depths. */
  readonly turning: readonly number[];
  readonly pixelsPerMetre: number;
  /** Ground marks tell that. Else a known length does, where there is one: then it is wrong with how far that lies off its plane. */
  readonly isMetreTold: boolean;
  readonly depthOf: Depths['of'];
  /** What is unsure of the camera of the view that tells depths; null where none does. */
  readonly depthsBy: Depths['by'];
  readonly errors: SetUpErrors;
  /** With these values of its quantities: a place of that depth (metres nearer than the ankles), seen from far off, in pixels. */
  readonly look: (values: readonly number[]) => (place: PicturePoint, depth: number) => PicturePoint;
  /** How far the ball lies nearer than the ankles. */
  readonly ballDepth: Quantity;
  /** How far the known lengths of a plane lie nearer than the ankles: the sum of these. */
  readonly planeDepth: (plane: Plane) => readonly Quantity[];
  /** Place of the distance among the quantities. */
  readonly distanceAt: number;
  /** How much the plumb leans for a radian of looking up: it stands beside the middle of the picture. */
  readonly plumbPerPitch: number;
}

/** The same stand, for what is drawn over the picture: every place is where it is seen. */
export function asSeen(stand: CameraStand): CameraStand {
  return { ...stand, look: () => (place) => place };
}

const [YAW, PITCH, DISTANCE, LENS] = [0, 1, 2, 3] as const;

/** How a clip's camera stands. `others`: the swing's other views, which tell depths. `side`: 1 for a right-hander. */
export function cameraStandOf(
  clip: MarkedClip,
  others: readonly MarkedClip[],
  side: 1 | -1,
  placing: PlacingErrors,
): CameraStand {
  const errors = placing.setUp ?? ASSUMED_SET_UP;
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const straight = straightened(clip, sigma);
  const told = toldCameraOf(straight.clip, side, sigma);
  const perMetre = pixelsPerMetre(clip, placing, told);
  const distance = told?.distance ?? errors.distance;
  const input = (name: string, value: number, u: number): Quantity => ({
    name,
    value,
    u,
    source: 'camera',
    shared: 'day',
  });
  // Told by marks it is as sure as these were clicked, which is anew for each swing unless they are copied.
  const camera = (name: string, value: number, u: number): Quantity =>
    told === null ? input(name, value, u) : { name: told.named(name), value, u, source: 'camera', shared: 'marks' };
  const { of: depthOf, by: depthsBy } = depthsIn(clip, others, side, placing);
  const ball = depthOf('ball', 'address');
  const nearness = { name: 'depth of the ball', value: ball.value, u: uOf(ball, depthsBy) };
  const ballDepth: Quantity = { ...nearness, source: 'depth', shared: 'day' };
  const quantities = [
    camera('camera yaw', told?.yaw.value ?? 0, told?.yaw.u ?? errors.yaw),
    camera('camera pitch', told?.pitch.value ?? 0, told?.pitch.u ?? errors.height / errors.distance.value),
    camera('camera distance', distance.value, distance.u),
    input('camera lens', 0, straight.lens === null ? errors.lens : 0),
  ];
  return {
    isTold: told !== null,
    quantities,
    turning: [YAW, PITCH],
    pixelsPerMetre: perMetre,
    isMetreTold: (told?.perMetre ?? null) !== null,
    depthOf,
    depthsBy,
    errors,
    look: (values) =>
      lookFrom(clip, perMetre, {
        yaw: valueAt(values, YAW),
        pitch: valueAt(values, PITCH),
        distance: valueAt(values, DISTANCE),
        lens: valueAt(values, LENS),
      }),
    ballDepth,
    planeDepth: (plane) => {
      const off = { name: `known length off the plane of the ${plane}`, value: 0, u: errors.plane };
      const beside: Quantity = { ...off, source: 'depth', shared: 'day' };
      return plane === 'ball' ? [ballDepth, beside] : [beside];
    },
    distanceAt: DISTANCE,
    plumbPerPitch: side * besideMiddle(clip, perMetre * distance.value),
  };
}

/** All that is unsure of a depth, metres. */
function uOf({ value, u, takenU, perYaw, perRoll, scaleU }: Depth, by: Depths['by']): number {
  return Math.hypot(u, takenU, perYaw * (by?.yaw.u ?? 0), perRoll * (by?.roll.u ?? 0), scaleU * value);
}

/** Tangent of how far the plumbs and levels of a clip lie to the right of its middle, on average; 0 without any. */
function besideMiddle(clip: MarkedClip, focal: number): number {
  const lines = calibratingShapes(clip).filter((shape) => shape.kind === 'line' && shape.role === 'plumb');
  if (lines.length === 0) return 0;
  const sum = lines.reduce((total, line) => total + (line.kind === 'line' ? (line.a.x + line.b.x) / 2 : 0), 0);
  return (sum / lines.length - clip.width / 2) / focal;
}
