import { nearestOnEllipse } from './ellipse.ts';
import type { SwingPoint } from './point.ts';

/**
 * The circle of the clubhead, in a plane that holds the target line and leans by `incline` from the ground, as a level
 * camera face on sees it from far away: the ellipse along = centre + radius cos(phase), up = centre + radius
 * sin(incline) sin(phase). The phase is the angle in the arc's own plane: -pi/2 at the low point, 0 toward the target.
 */
export interface Arc {
  readonly centre: SwingPoint;
  /** The circle's true radius in the picture's pixels, > 0: the ellipse's half axis along the target line. */
  readonly radius: number;
  /** Radians in (0, pi/2], of the arc's plane from the ground; pi/2 = upright, seen as the circle itself. */
  readonly incline: number;
}

/** The phase of the low point. */
export const LOW_PHASE = -Math.PI / 2;

export function placeOnArc({ centre, radius, incline }: Arc, phase: number): SwingPoint {
  return {
    along: centre.along + radius * Math.cos(phase),
    up: centre.up + radius * Math.sin(incline) * Math.sin(phase),
  };
}

/** The lowest place of the arc in the picture. It goes where the centre goes, and sinks as the radius grows. */
export function lowPointOf({ centre, radius, incline }: Arc): SwingPoint {
  return { along: centre.along, up: centre.up - radius * Math.sin(incline) };
}

export interface OnArc {
  /** Of the nearest place on the arc, radians in (-pi, pi]. */
  readonly phase: number;
  /** Pixels of the picture from the arc to the point: > 0 outside, < 0 inside. */
  readonly distance: number;
  /** Away from the arc's inside, at right angles to it in the picture, of length 1. */
  readonly outward: SwingPoint;
}

/** How a point lies to the arc. */
export function nearestOnArc({ centre, radius, incline }: Arc, point: SwingPoint): OnArc {
  const [along, up] = [point.along - centre.along, point.up - centre.up];
  const { phase, distance, outward } = nearestOnEllipse(radius, radius * Math.sin(incline), along, up);
  return { phase, distance, outward: { along: outward.x, up: outward.y } };
}
