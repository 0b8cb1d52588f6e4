import { fitLens } from '../../geometry/fit-lens.ts';
import type { LensEstimate, LensRefusal } from '../../geometry/fit-lens.ts';
import { straighten } from '../../geometry/lens.ts';
import type { EdgeShape, PicturePoint } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { CalibratedClip } from './calibration.ts';
import { remembered } from '../memoise.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** The lens of one clip, and what it depends on. */
export interface ClipLens {
  readonly state: 'fitted';
  readonly shapeIds: readonly string[];
  readonly estimate: LensEstimate;
  /** One or two inputs of value 0 by which the lens scatters. */
  readonly quantities: readonly Quantity[];
  /**
   * Straightens places as the lens with these values of its quantities does. A place beyond the lens's fold, outside the
   * marked edges' reach, stays where it is seen.
   */
  readonly at: (values: readonly number[]) => (place: PicturePoint) => PicturePoint;
  /** The same with the lens that was estimated. */
  readonly straighten: (place: PicturePoint) => PicturePoint;
}

export interface LensNotTold {
  readonly state: 'refused';
  readonly shapeIds: readonly string[];
  readonly reason: LensRefusal;
}

/** A clip with places as they would be without its lens, as far as marked edges tell of one. */
export interface Straightened<Clip> {
  readonly clip: Clip & CalibratedClip;
  /** null where no edges are marked, or where they tell nothing. */
  readonly lens: ClipLens | null;
}

/** The clip as everything is read from it. `sigma`: placing error of a mark, pixels. */
export function straightened<Clip extends CalibratedClip & LensClip>(clip: Clip, sigma: number): Straightened<Clip> {
  const lens = lensOf(clip, sigma);
  return lens?.state === 'fitted' ? { clip: { ...clip, straighten: lens.straighten }, lens } : { clip, lens: null };
}

type LensClip = Pick<MarkedClip, 'marks' | 'width' | 'height'>;

/** The lens that all straight edges of a clip tell together, marked on any of its frames. null where none is marked. */
export function lensOf({ marks, width, height }: LensClip, sigma: number): ClipLens | LensNotTold | null {
  const [first, ...others] = marks.flatMap(({ shapes }) => shapes.filter((shape) => shape.kind === 'edge'));
  return first === undefined ? null : lensOfEdges(first, sigma, width, height, ...others);
}

const lensOfEdges = remembered(
  (
    first: EdgeShape,
    sigma: number,
    width: number,
    height: number,
    ...others: readonly EdgeShape[]
  ): ClipLens | LensNotTold => {
    const edges = [first, ...others];
    const shapeIds = edges.map(({ id }) => id);
    const fit = fitLens(
      edges.map(({ places }) => places),
      { width, height },
      sigma,
    );
    if (fit.state === 'refused') return { state: 'refused', shapeIds, reason: fit.reason };
    const { estimate } = fit;
    const quantities = estimate.steps.map((_, k): Quantity => ({
      name: `lens ${String(k + 1)}`,
      value: 0,
      u: 1,
      source: 'lens',
    }));
    const at = (values: readonly number[]) => {
      const sum = (of: 'k1' | 'k2') =>
        estimate.steps.reduce((total, step, k) => total + (values[k] ?? 0) * step[of], estimate.lens[of]);
      const lens = { ...estimate.lens, k1: sum('k1'), k2: sum('k2') };
      return (place: PicturePoint) => straighten(lens, place) ?? place;
    };
    return { state: 'fitted', shapeIds, estimate, quantities, at, straighten: at([]) };
  },
);
