import { fitHomography, scatteredHomography } from '../../geometry/fit-homography.ts';
import type { HomographyFit, HomographyRefusal } from '../../geometry/fit-homography.ts';
import type { GroundMark as PlacedGroundMark, GroundPoint } from '../../geometry/ground-marks.ts';
import { toGround } from '../../geometry/homography.ts';
import type { GroundShape, PicturePoint } from '../../model/mark.ts';
import type { CalibratedClip } from './calibration.ts';
import { remembered } from '../memoise.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** The map to the ground of one clip, and what it depends on. */
export interface GroundMap {
  /** The marks that it comes from. */
  readonly shape: GroundShape;
  readonly fit: HomographyFit;
  /** Placing error of a mark, pixels: the larger of the assumed one and of what the marks' own residuals speak of. */
  readonly sigma: number;
  /** Eight inputs of value 0 by which the map scatters. */
  readonly quantities: readonly Quantity[];
  /** The map with these values of its quantities; null for a place at or over the horizon. */
  readonly at: (values: readonly number[]) => (place: PicturePoint) => GroundPoint | null;
}

export interface GroundRefusal extends HomographyRefusal {
  /** The marks that it comes from. */
  readonly shape: GroundShape;
}

/**
 * The map to the ground from the ground marks of a clip, wherever in the clip they were marked (the camera stands still);
 * of several sets the one with the most marks, of equals the first. null without any; refused when they tell no map.
 */
export function groundOf(clip: CalibratedClip, sigma: number): GroundMap | GroundRefusal | null {
  const sets = clip.marks.flatMap(({ shapes }) => shapes.filter((shape) => shape.kind === 'ground'));
  const [first, ...others] = sets;
  if (first === undefined) return null;
  const marks = others.reduce((most, set) => (set.places.length > most.places.length ? set : most), first);
  return mapOf(marks, sigma, clip.straighten);
}

type Straighten = CalibratedClip['straighten'];

const mapOf = remembered((marks: GroundShape, sigma: number, straighten: Straighten): GroundMap | GroundRefusal => {
  const fit = fitHomography(groundPairs(marks, straighten));
  if (fit.state === 'refused') return { ...fit, shape: marks };
  const placing = Math.max(sigma, fit.scatter ?? 0);
  const quantities = fit.spread.map((_, k: number): Quantity => ({
    name: `ground ${String(k + 1)}`,
    value: 0,
    u: 1,
    source: 'ground',
  }));
  const at = (values: readonly number[]) => {
    // Mostly asked with all of them 0: while points are moved one by one.
    const isPlain = values.every((value) => value === 0);
    const homography = isPlain ? fit.homography : scatteredHomography(fit, values, placing);
    return (place: PicturePoint) => (homography === null ? null : toGround(homography, place));
  };
  return { shape: marks, fit, sigma: placing, quantities, at };
});

/** The marks as a map is fitted to them, their ground counted from `origin`. */
export function groundPairs(
  { places }: GroundShape,
  straighten: Straighten,
  origin: { readonly target: number; readonly ball: number } = { target: 0, ball: 0 },
): readonly PlacedGroundMark[] {
  return places.map(({ x, y, target, ball }) => ({
    ground: { x: target - origin.target, y: ball - origin.ball },
    picture: straighten?.({ x, y }) ?? { x, y },
  }));
}
