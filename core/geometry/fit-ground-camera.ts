import { wrapAngle } from './angle.ts';
import { covarianceRoot } from './covariance-root.ts';
import { fitHomography } from './fit-homography.ts';
import type { HomographyRefusal } from './fit-homography.ts';
import { groundMatrixOf, handednessOf, numbersOf, pinholeOfHomography } from './ground-camera.ts';
import type { CameraNumbers, PictureSize, Pinhole } from './ground-camera.ts';
import type { GroundMark } from './ground-marks.ts';
import { homographyOf, toPicture } from './homography.ts';
import type { Homography } from './homography.ts';
import { leastSquares } from './least-squares.ts';
import { entry, multiply } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';
import type { Handedness } from '../model/words.ts';

/** The camera that the marks give, with what it is uncertain by. */
export interface GroundCameraFit {
  readonly state: 'fitted';
  readonly camera: CameraNumbers;
  /** Standard uncertainties, each in its number's own unit, for the placing error that was given. */
  readonly uncertainty: CameraNumbers;
  /** The player whose ground this is; when that is not the player's hand, marks are mixed up. */
  readonly handedness: Handedness;
  /** The map that this camera makes. It has seven numbers where a map from marks alone has eight, and scatters less. */
  readonly homography: Homography;
  /** Seven 3 x 3 matrices for that map, used as those of `HomographyFit` are, for placing errors of 1 px. */
  readonly spread: readonly Matrix[];
  /** How far each mark lies from where this camera sees it, pixels, >= 0; and their root mean square. */
  readonly residuals: readonly number[];
  readonly rms: number;
  /**
   * By how many standard deviations of placing the marks contradict an axis through the picture's middle, >= 0: the root
   * of what the sum of squares grows by for it. About normal (half of it) where that holds; over 3 the picture was cut.
   */
  readonly strain: number;
}

/**
 * Why there is no camera: what `HomographyRefusal` says; `no-horizon` and `no-focal` of `pinholeOfHomography`;
 * `focal-unsure`: the marks leave the focal length open by more than MOST_UNSURE.
 */
export interface GroundCameraRefusal {
  readonly state: 'refused';
  readonly reason: HomographyRefusal['reason'] | 'no-horizon' | 'no-focal' | 'focal-unsure';
  readonly marks: readonly number[];
}

/** With a standard uncertainty of a third of itself and more, the 95 % interval holds almost any lens, and nothing is linear. */
export const MOST_UNSURE = 1 / 3;

/**
 * The camera that sees the marks nearest to where they were placed (least squares of the pixels), with the picture's size
 * in pixels and `placing`, the standard deviation of a placed point in x and in y, pixels, > 0.
 *
 * It takes pixels to be square, the lens free of distortion, and its axis to go through the middle of the picture. The last
 * is what tells heading and roll apart from each other: without it marks on a yard of ground leave the heading open by
 * ten degrees and more. A whole picture comes near it, one that was cut or steadied afterwards need not. An axis that is d
 * pixels beside the middle turns the heading by d / focal radians, one that is d above or below it the pitch; the place of
 * the camera and its focal length change less. That is not in the uncertainties.
 */
export function fitGroundCamera(
  marks: readonly GroundMark[],
  picture: PictureSize,
  placing: number,
): GroundCameraFit | GroundCameraRefusal {
  if (!(picture.width > 0 && picture.height > 0)) throw new Error('fitGroundCamera: the picture must have a size');
  if (!(placing > 0 && placing < Infinity)) throw new Error('fitGroundCamera: placing must be above 0 px');
  const map = fitHomography(marks);
  if (map.state === 'refused') return map;
  const start = pinholeOfHomography(map.homography, picture);
  if (start === 'no-horizon' || start === 'no-focal') return { state: 'refused', reason: start, marks: [] };

  const unsure: GroundCameraRefusal = { state: 'refused', reason: 'focal-unsure', marks: [] };
  const reach = meanDistance(start, marks);
  const at = (by: Vector) => changed(start, by, reach);
  const fit = leastSquares(
    (by) => residualsOf(at(by), marks, picture),
    NOTHING,
    NOTHING.map(() => NOTICEABLE),
  );
  if (fit === null || fit.covariance === null) return unsure;
  const found = at(fit.parameters);
  const homography = homographyOf(groundMatrixOf(found, picture));
  if (homography === null) return unsure;
  const camera = numbersOf(found);
  const roots = covarianceRoot(fit.covariance);
  const beside = roots.map((root) => ({
    ahead: at(stepped(fit.parameters, root, 1)),
    behind: at(stepped(fit.parameters, root, -1)),
  }));
  const slopes = beside.map(({ ahead, behind }) => slopesOf(numbersOf(ahead), numbersOf(behind)));
  const uncertainty = mapNumbers(camera, (_, name) => placing * Math.hypot(...slopes.map((slope) => slope[name])));
  if (!(uncertainty.focal <= MOST_UNSURE * camera.focal)) return unsure;
  const residuals = marks.map((_, i) => Math.hypot(fit.residuals[2 * i] ?? 0, fit.residuals[2 * i + 1] ?? 0));
  return {
    state: 'fitted',
    camera,
    uncertainty,
    handedness: handednessOf(found),
    homography,
    spread: beside.map(({ ahead, behind }) => slopeOf(groundMatrixOf(ahead, picture), groundMatrixOf(behind, picture))),
    residuals,
    rms: Math.sqrt(fit.sum / marks.length),
    strain: Math.sqrt(Math.max(0, fit.sum - map.rms ** 2 * marks.length)) / placing,
  };
}

/** The seven numbers of `changed`, at the start. */
const NOTHING: Vector = [0, 0, 0, 0, 0, 0, 0];
/**
 * The size that the fit counts its steps by. With 10 it ends below 1e-11 of a radian, of the focal length and of the
 * distance, a little above where the rounding of pixels keeps weak perspective from settling.
 */
const NOTICEABLE = 10;
/** Slopes are taken over this part of a standard deviation at 1 px: small against all bends, large against rounding. */
const STEP = 1e-3;

function stepped(parameters: Vector, root: Vector, sign: 1 | -1): number[] {
  return parameters.map((value, i) => value + sign * STEP * (root[i] ?? Number.NaN));
}

function slopeOf(ahead: Matrix, behind: Matrix): Matrix {
  return ahead.map((row, i) => row.map((value, j) => (value - entry(behind, i, j)) / (2 * STEP)));
}

function slopesOf(ahead: CameraNumbers, behind: CameraNumbers): CameraNumbers {
  const isAngle = {
    heading: true,
    pitch: true,
    roll: true,
    focal: false,
    x: false,
    y: false,
    height: false,
    distance: false,
  };
  return mapNumbers(ahead, (value, name) => {
    const by = value - behind[name];
    return (isAngle[name] ? wrapAngle(by) : by) / (2 * STEP);
  });
}

function mapNumbers(of: CameraNumbers, change: (value: number, name: keyof CameraNumbers) => number): CameraNumbers {
  const to = (name: keyof CameraNumbers): number => change(of[name], name);
  return {
    focal: to('focal'),
    x: to('x'),
    y: to('y'),
    height: to('height'),
    distance: to('distance'),
    heading: to('heading'),
    pitch: to('pitch'),
    roll: to('roll'),
  };
}

/**
 * `start` with its focal length grown by exp(by[0]), turned by by[1..3] radians about its own axes, moved by by[4..6] times
 * `reach`: seven numbers that are all of size 1 and have no edge.
 */
function changed(start: Pinhole, by: Vector, reach: number): Pinhole {
  const at = (i: number): number => by[i] ?? Number.NaN;
  const [x, y, z] = start.centre;
  return {
    focal: start.focal * Math.exp(at(0)),
    turn: multiply(rotation(at(1), at(2), at(3)), start.turn),
    centre: [x + reach * at(4), y + reach * at(5), z + reach * at(6)],
  };
}

/** The rotation by hypot(a, b, c) radians about the axis (a, b, c) (Rodrigues' formula). */
function rotation(a: number, b: number, c: number): Matrix {
  const angle = Math.hypot(a, b, c);
  // sin t / t and (1 - cos t) / t^2, which stay exact for small angles when the second is written with the half angle.
  const first = angle === 0 ? 1 : Math.sin(angle) / angle;
  const half = angle === 0 ? 1 : Math.sin(angle / 2) / (angle / 2);
  const second = (half * half) / 2;
  const skew = [
    [0, -c, b],
    [c, 0, -a],
    [-b, a, 0],
  ];
  const squared = multiply(skew, skew);
  return skew.map((row, i) => row.map((value, j) => (i === j ? 1 : 0) + first * value + second * entry(squared, i, j)));
}

function meanDistance({ centre: [x, y, z] }: Pinhole, marks: readonly GroundMark[]): number {
  return marks.reduce((sum, { ground }) => sum + Math.hypot(ground.x - x, ground.y - y, z), 0) / marks.length;
}

/** null where the camera stands in the ground or has a mark behind it. */
function residualsOf(pinhole: Pinhole, marks: readonly GroundMark[], picture: PictureSize): Vector | null {
  if (!(pinhole.centre[2] > 0)) return null;
  const homography = { groundToPicture: groundMatrixOf(pinhole, picture), pictureToGround: [] };
  const residuals: number[] = [];
  for (const mark of marks) {
    const seen = toPicture(homography, mark.ground);
    if (seen === null) return null;
    residuals.push(seen.x - mark.picture.x, seen.y - mark.picture.y);
  }
  return residuals;
}
