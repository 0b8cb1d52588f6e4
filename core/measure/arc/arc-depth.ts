import { toSwing } from '../../geometry/point.ts';
import type { PicturePoint } from '../../model/mark.ts';
import { marksAt } from '../../model/swing.ts';
import type { ClipContext } from '../readings/read-placed.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import type { PathPart } from './clubhead-path.ts';

/** How far from the camera the clubhead's path lies, and what that makes of its places. */
export interface ArcDepth {
  /**
   * The camera's inputs, the nearness of the ball, and how far the club's plane leads beside the target line. Where no ground marks
   * tell how large a metre is, also how far the known length lies off its plane: by it heights are told in metres, and so depths.
   */
  readonly loose: readonly Quantity[];
  /** Where a place of the path would be seen from far off; `off`: how far the inputs of `loose` are off, 0 where left out. */
  readonly look: (off: readonly number[]) => (place: PicturePoint) => PicturePoint;
}

/** How far the club's plane may lead beside the target line, radians, one standard deviation. Assumed, ours: 5 degrees. */
const DIRECTION_U = (5 * Math.PI) / 180;

/**
 * The club's plane comes down to the ball, whose nearness is known from the other view or taken from a usual posture; what lies
 * higher lies farther back by the plane's incline (radians from the ground). A place lies where its ray meets that plane: what
 * is nearer than the ankles looks larger, so heights of the picture itself would put it too far back. Whether the plane leads
 * beside the target line nobody sees: the clubhead's places far from the ball, which the other view shows, lie off it.
 */
export function arcDepthOf(
  { clip, side, stand, lens, plumb, scaleOf }: ClipContext,
  part: PathPart,
  incline: number,
): ArcDepth {
  const { quantities, ballDepth, pixelsPerMetre } = stand;
  const distance = quantities[stand.distanceAt]?.value ?? Infinity;
  const known = scaleOf('player');
  // The ball's own nearness is among them already.
  const beside =
    known === null || stand.isMetreTold
      ? []
      : stand.planeDepth(known.plane).filter(({ name }) => name !== ballDepth.name);
  const ball = marksAt(clip, 'address')?.points.ball ?? marksAt(clip, 'impact')?.points.ball;
  const marked = ball ?? { x: clip.width / 2, y: clip.height };
  const lowest = lens === null ? marked : lens.straighten(marked);
  const upright = (at: PicturePoint) => toSwing(at, { side, tilt: plumb?.quantity.value ?? 0 });

  const direction: Quantity = {
    name: `direction of the arc, ${part}`,
    value: 0,
    u: DIRECTION_U,
    source: 'plane',
    shared: 'player',
  };
  const look: ArcDepth['look'] = (off) => {
    const at = stand.look(quantities.map(({ value }, i) => value + (off[i] ?? 0)));
    const [nearer = 0, turned = 0, nearerLength = 0] = off.slice(quantities.length);
    const perMetre = pixelsPerMetre * (1 - nearerLength / distance);
    const slope = direction.value + turned;
    const near = ballDepth.value + nearer;
    const foot = upright(at(lowest, near));
    /** How much nearer the plane is, above and ahead of the ball where the place is seen from far off, than that depth. */
    const short = (place: PicturePoint, depth: number): number => {
      const { along, up } = upright(at(place, depth));
      const [ahead, above] = [along - foot.along, up - foot.up];
      return near + (ahead * slope - above / Math.tan(incline)) / perMetre - depth;
    };
    return (place) => {
      // Along a ray that is a straight line: two depths tell where it is 0.
      const [flush, farther] = [short(place, 0), short(place, 1)];
      return at(place, flush / (flush - farther));
    };
  };
  return { loose: [...quantities, ballDepth, direction, ...beside], look };
}
