import { LOW_PHASE, placeOnArc } from '../../geometry/arc.ts';
import { wrapAngle } from '../../geometry/angle.ts';
import { distort } from '../../geometry/lens.ts';
import { fromSwing } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { PicturePoint } from '../../model/mark.ts';
import type { PathPart } from './clubhead-path.ts';
import type { ArcContext } from './read-arc.ts';

/** A fitted arc of the clubhead as it lies in the picture, lens and all. */
export interface ArcDrawing {
  /** Places close to one another, over all that the path covers and to the lowest place. */
  readonly curve: readonly PicturePoint[];
  readonly centre: PicturePoint;
  readonly low: PicturePoint;
  /** Level with the centre, toward the target: the radius lies between the two. */
  readonly rim: PicturePoint;
}

/** Enough that nobody sees the corners. */
const STEPS = 64;

/** The arc round impact or away from address, as it was fitted for the readings; null where there is none. */
export function arcDrawingOf(context: ArcContext, part: PathPart): ArcDrawing | null {
  const arc = context.arcs[part];
  if (arc === null || typeof arc === 'string') return null;
  const { fit } = arc;
  const stance = { side: context.side, tilt: context.plumb?.quantity.value ?? 0 };
  const seen = (place: SwingPoint): PicturePoint => {
    const ideal = fromSwing(place, stance);
    return context.lens === null ? ideal : (distort(context.lens.estimate.lens, ideal) ?? ideal);
  };
  const middle = (fit.from + fit.to) / 2;
  const low = middle + wrapAngle(LOW_PHASE - middle);
  const [from, to] = [Math.min(fit.from, low), Math.max(fit.to, low)];
  const curve = Array.from({ length: STEPS + 1 }, (_, i) => seen(placeOnArc(fit, from + ((to - from) * i) / STEPS)));
  return { curve, centre: seen(fit.centre), low: seen(fit.low), rim: seen(placeOnArc(fit, 0)) };
}
