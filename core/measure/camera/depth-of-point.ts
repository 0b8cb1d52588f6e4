import type { BodyPointId } from '../../model/body-points.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint, View } from '../../model/words.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { pixelsPerMetre } from './picture-scale.ts';
import { usualPlace } from './posture.ts';
import { ASSUMED_SET_UP } from './set-up-errors.ts';

/** How much nearer to the camera a point lies than the middle between the ankles at address, metres. */
export interface Depth {
  readonly value: number;
  /** Besides `scaleU`. */
  readonly u: number;
  /** Part of the value by which all depths that the other view tells are wrong together; 0 where it does not tell it. */
  readonly scaleU: number;
  /** Seen in the other view at the same checkpoint; else taken from a usual posture. */
  readonly isSeen: boolean;
}

export type DepthOf = (point: BodyPointId, checkpoint: Checkpoint) => Depth;

/** What makes a depth seen in the other view unsure besides its click: that view's yaw and definition, metres, and its scale, as a part. */
const OTHER_VIEW_U = 0.025;
const OTHER_SCALE_U = 0.06;

/**
 * Depths of the points of a clip: of those that the swing's other view shows at the same checkpoint, from where they lie across
 * that view; of others from a usual posture, with its spread. `side`: 1 for a right-hander.
 */
export function depthsIn(
  clip: Pick<MarkedClip, 'view'>,
  others: readonly MarkedClip[],
  side: 1 | -1,
  placing: PlacingErrors,
): DepthOf {
  const widened = (placing.setUp ?? ASSUMED_SET_UP).depth;
  const other = others.find(({ view }) => view !== clip.view);
  const seen = other === undefined ? null : acrossView(other, side, placing);
  return (point, checkpoint) => {
    const across = seen?.(point, checkpoint) ?? null;
    if (across !== null) {
      const seenU = { u: widened * across.u, scaleU: widened * OTHER_SCALE_U };
      return { value: nearer(clip.view, across.value), ...seenU, isSeen: true };
    }
    const { target, ball, u } = usualPlace(point, checkpoint);
    return {
      value: nearer(clip.view, clip.view === 'face-on' ? ball : target),
      u: widened * u,
      scaleU: 0,
      isSeen: false,
    };
  };
}

/** The camera down the line stands away from the target, the one face on stands on the ball's side. */
function nearer(view: View, along: number): number {
  return view === 'face-on' ? along : -along;
}

/** Where a view shows its points across, metres from the middle between the ankles at address. null without both ankles. */
function acrossView(other: MarkedClip, side: 1 | -1, placing: PlacingErrors) {
  const feet = marksAt(other, 'address')?.points ?? {};
  const [lead, trail] = [feet['lead-ankle'], feet['trail-ankle']];
  if (lead === undefined || trail === undefined) return null;
  const perMetre = pixelsPerMetre(other, placing);
  const middle = (lead.x + trail.x) / 2;
  return (point: BodyPointId, checkpoint: Checkpoint): { readonly value: number; readonly u: number } | null => {
    const placed = marksAt(other, checkpoint)?.points[point];
    if (placed === undefined) return null;
    const value = (side * (placed.x - middle)) / perMetre;
    const click = placingSigma(placing, other.height, point, placed.hidden, placed.guess).sigma / perMetre;
    return { value, u: Math.hypot(click, OTHER_VIEW_U) };
  };
}
