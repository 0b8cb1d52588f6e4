import type { PicturePoint, PlacedPoint } from '../../model/mark.ts';
import { fitLine } from '../../geometry/fit-line.ts';
import { inclineFromHorizontal } from '../../geometry/line.ts';
import { toSwing } from '../../geometry/point.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { marksAt } from '../../model/swing.ts';
import { plumbOf } from '../camera/calibration.ts';
import { clubheadPathOf, inSwing, largestGuess, placesOf } from './clubhead-path.ts';
import { straightened } from '../camera/lens-of-clip.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** The incline of the plane that the clubhead comes through in, and how it is known. */
export interface ArcPlane {
  /** Radians in (0, pi/2], from the ground. */
  readonly quantity: Quantity;
  readonly by: 'path' | 'shaft';
}

/** Four places show whether they lie on a line; two would always. */
const FEWEST_PLACES = 4;

/** How far the plane of the arc may differ from the shaft at address, one standard deviation, radians. Assumed, ours: 5 degrees. */
export const SHAFT_PLANE_U = (5 * Math.PI) / 180;

/**
 * The plane's incline as a camera down the line sees it, where the plane is seen from its edge: from the line through the
 * clubhead's places round impact, else from the shaft at address. null where that view has neither.
 */
export function arcPlaneOf(clip: MarkedClip, side: 1 | -1, placing: PlacingErrors): ArcPlane | null {
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const { clip: straight } = straightened(clip, sigma);
  const straighten = straight.straighten ?? ((at: PicturePoint) => at);
  const plumb = plumbOf(straight, side, sigma);
  const stance = { side, tilt: plumb?.quantity.value ?? 0 };
  const found = byPath(clip, straighten, stance, placing) ?? byShaft(clip, straighten, stance, placing);
  if (found === null || !(found.value > 0 && found.value <= Math.PI / 2)) return null;
  const u = Math.hypot(found.u, plumb?.quantity.u ?? 0);
  return { by: found.by, quantity: { name: 'incline of the arc', value: found.value, u, source: 'plane' } };
}

type Found = { readonly by: ArcPlane['by']; readonly value: number; readonly u: number } | null;

function byPath(
  clip: MarkedClip,
  straighten: Parameters<typeof inSwing>[1],
  stance: Parameters<typeof inSwing>[2],
  placing: PlacingErrors,
): Found {
  const path = clubheadPathOf(clip);
  if (path === null) return null;
  const placed = placesOf(path, 'impact', clip);
  const places = inSwing(placed, straighten, stance);
  const line = fitLine(places.map(({ along, up }) => ({ x: along, y: up })));
  if (line === null || places.length < FEWEST_PLACES) return null;
  const { sigma } = placingSigma(placing, clip.height, 'clubhead', false, largestGuess(placed));
  // The path is not quite flat, which shows as more scatter than placing has.
  const scatter = Math.max(sigma, line.residual * Math.sqrt(places.length / (places.length - 2)));
  return { by: 'path', value: Math.abs(line.direction), u: scatter * line.directionUncertainty };
}

function byShaft(
  clip: MarkedClip,
  straighten: Parameters<typeof inSwing>[1],
  stance: Parameters<typeof toSwing>[1],
  placing: PlacingErrors,
): Found {
  const points = marksAt(clip, 'address')?.points ?? {};
  const [grip, head] = [points['grip-end'], points.clubhead];
  if (grip === undefined || head === undefined) return null;
  const place = (at: { x: number; y: number }) => toSwing(straighten(at), stance);
  const [top, bottom] = [place(grip), place(head)];
  const rise = inclineFromHorizontal(bottom, top);
  if (rise === null) return null;
  // The grip lies away from the ball, so the line rises backwards: from the ground it is the rest of half a turn.
  const value = Math.PI - Math.abs(rise);
  const length = Math.hypot(top.along - bottom.along, top.up - bottom.up);
  const sigma = (point: 'grip-end' | 'clubhead', { hidden, guess }: PlacedPoint) =>
    placingSigma(placing, clip.height, point, hidden, guess).sigma;
  const u = Math.hypot(sigma('grip-end', grip), sigma('clubhead', head)) / length;
  return { by: 'shaft', value, u: Math.hypot(u, SHAFT_PLANE_U) };
}
