import { fitHomography, scatteredHomography } from '../geometry/fit-homography.ts';
import type { HomographyFit, HomographyRefusal } from '../geometry/fit-homography.ts';
import type { GroundPoint } from '../geometry/ground-marks.ts';
import { toGround } from '../geometry/homography.ts';
import type { GroundShape, PicturePoint } from '../model/mark.ts';
import type { CalibratedClip } from './calibration.ts';
import type { Quantity } from './uncertain.ts';

/** The map to the ground of one clip, and what it depends on. */
export interface GroundMap {
  readonly shapeId: string;
  readonly fit: HomographyFit;
  /** Placing error of a mark, pixels: the larger of the assumed one and of what the marks' own residuals speak of. */
  readonly sigma: number;
  /** Eight inputs of value 0 by which the map scatters. */
  readonly quantities: readonly Quantity[];
  /** The map with these values of its quantities; null for a place at or over the horizon. */
  readonly at: (values: readonly number[]) => (place: PicturePoint) => GroundPoint | null;
}

export interface GroundRefusal extends HomographyRefusal {
  readonly shapeId: string;
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
  const fit = fitHomography(pairsOf(marks, clip));
  if (fit.state === 'refused') return { ...fit, shapeId: marks.id };
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
  return { shapeId: marks.id, fit, sigma: placing, quantities, at };
}

function pairsOf({ places }: GroundShape, { straighten }: CalibratedClip) {
  return places.map(({ x, y, target, ball }) => ({
    ground: { x: target, y: ball },
    picture: straighten?.({ x, y }) ?? { x, y },
  }));
}
