import type { PicturePoint } from '../../model/mark.ts';
import { marksAt } from '../../model/swing.ts';
import type { ClipContext } from '../readings/read-placed.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import type { PathPart } from './clubhead-path.ts';

/** How far from the camera the clubhead's path lies, and what that makes of its places. */
export interface ArcDepth {
  /** The camera's inputs, the nearness of the ball, and how far the club's plane leads beside the target line. */
  readonly loose: readonly Quantity[];
  /** Where a place of the path would be seen from far off; `off`: how far the inputs of `loose` are off, 0 where left out. */
  readonly look: (off: readonly number[]) => (place: PicturePoint) => PicturePoint;
}

/** How far the club's plane may lead beside the target line, radians, one standard deviation. Assumed, ours: 5 degrees. */
const DIRECTION_U = (5 * Math.PI) / 180;

/**
 * The club's plane comes down to the ball, whose nearness is known from the other view or taken from a usual posture; what lies
 * higher lies farther back by the plane's incline (radians from the ground). Whether the plane leads beside the target line
 * nobody sees: the clubhead's places far from the ball, which the other view shows, lie off it.
 */
export function arcDepthOf({ clip, side, stand }: ClipContext, part: PathPart, incline: number): ArcDepth {
  const { quantities, planeDepth, pixelsPerMetre } = stand;
  const nearness = planeDepth('ball');
  const ball = marksAt(clip, 'address')?.points.ball ?? marksAt(clip, 'impact')?.points.ball;
  const lowest = ball ?? { x: clip.width / 2, y: clip.height };
  const ahead = ({ x }: PicturePoint): number => (side * (x - lowest.x)) / pixelsPerMetre;
  const onPlane = ({ y }: PicturePoint): number => -(lowest.y - y) / pixelsPerMetre / Math.tan(incline);

  const direction: Quantity = {
    name: `direction of the arc, ${part}`,
    value: 0,
    u: DIRECTION_U,
    source: 'plane',
    shared: 'player',
  };
  const look: ArcDepth['look'] = (off) => {
    const at = stand.look(quantities.map(({ value }, i) => value + (off[i] ?? 0)));
    const [nearer = 0, turned = 0] = off.slice(quantities.length);
    const slope = direction.value + turned;
    return (place) => at(place, nearness.value + nearer + onPlane(place) + ahead(place) * slope);
  };
  return { loose: [...quantities, nearness, direction], look };
}
