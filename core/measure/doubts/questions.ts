import { inclineFromHorizontal, inclineFromVertical } from '../../geometry/line.ts';
import { distance, sideOf, toSwing } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { LineShape } from '../../model/mark.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint, Handedness, View } from '../../model/words.ts';
import { MOST_LEAN, calibratingShapes, isPlumbOrLevel, scaleOf } from '../camera/calibration.ts';
import { toDegrees, wrapAngle } from '../../geometry/angle.ts';
import { COVERAGE_FACTOR } from '../uncertainty/estimate.ts';
import { ASSUMED_PLACING, placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';

/**
 * What the marks of a clip contradict, and only the coach can say which of the two is right.
 * hand: they lie as for a player of the other hand. crossed: a plumb lies level or a level stands upright, and tells no
 * vertical. leaning: one of them is far off for a camera that was set up by hand. unsure-scale: the known length is too short in
 * the picture to give centimetres. size: by the known length the player would be of no human size.
 */
export type ClipQuestion =
  | { readonly kind: 'hand'; readonly view: View; readonly handedness: Handedness }
  | { readonly kind: 'crossed'; readonly view: View; readonly role: 'plumb' | 'level' }
  | { readonly kind: 'leaning'; readonly view: View; readonly role: 'plumb' | 'level'; readonly degrees: number }
  | { readonly kind: 'unsure-scale'; readonly view: View }
  | { readonly kind: 'size'; readonly view: View; readonly legCm: number; readonly u: number };

/** A point with the checkpoint whose frame it lies on. */
type Spot = readonly [BodyPointId, Checkpoint];
/** The first lies farther along than the second: nearer the target face on, nearer the ball down the line. */
type Order = readonly [Spot, Spot];

const beside = (one: BodyPointId, other: BodyPointId): Order => [
  [one, 'address'],
  [other, 'address'],
];

/**
 * How marks lie for a player of the hand that the lesson says, by what the words mean. Lead is the side nearer the target
 * (trade). Toes and clubhead are toward the ball. The swing goes back from the target and through toward it.
 * Each list is a vote of its own: who takes the hand from the lesson names the sides to fit it, but the club still moves
 * the other way.
 */
const ORDERS: Readonly<Record<View, readonly (readonly Order[])[]>> = {
  'face-on': [
    [
      beside('lead-ankle', 'trail-ankle'),
      beside('lead-heel', 'trail-heel'),
      beside('lead-toe', 'trail-toe'),
      beside('lead-knee', 'trail-knee'),
      beside('lead-hip', 'trail-hip'),
      beside('lead-shoulder', 'trail-shoulder'),
    ],
    [
      [
        ['grip-end', 'address'],
        ['grip-end', 'takeaway'],
      ],
      [
        ['grip-end', 'address'],
        ['grip-end', 'lead-arm-level'],
      ],
      [
        ['clubhead', 'address'],
        ['clubhead', 'takeaway'],
      ],
      [
        ['clubhead', 'through'],
        ['clubhead', 'impact'],
      ],
    ],
  ],
  'down-the-line': [
    [
      beside('ball', 'lead-ankle'),
      beside('ball', 'trail-ankle'),
      beside('lead-toe', 'lead-heel'),
      beside('trail-toe', 'trail-heel'),
      beside('clubhead', 'grip-end'),
      beside('neck-base', 'tailbone'),
    ],
  ],
};

/** Only what lies apart by more than this many of its errors votes. */
const SURE = 3;
/** And a way from checkpoint to checkpoint only where it is a swing and no tremble: a part of the picture's height. Ours. */
const LEAST_WAY = 0.05;

/** Radians: a camera that was set up by hand is not rolled farther. Ours. */
const MOST_ROLL = (15 * Math.PI) / 180;

/** Hip to ankle by the knee, cm, as seen: from a small child to the tallest player, wide on purpose. Ours, no norm. */
const LEG = { from: 35, to: 130 } as const;

/** What to ask the coach about one clip; empty where nothing is contradicted, or too little is marked. */
export function questionsOf(
  clip: MarkedClip,
  handedness: Handedness,
  placing: PlacingErrors = ASSUMED_PLACING,
): readonly ClipQuestion[] {
  const { view } = clip;
  const isOtherHand = ORDERS[view].some((orders) => isContradicted(orders, clip, handedness, placing));
  return [
    ...(isOtherHand ? [{ kind: 'hand', view, handedness } as const] : []),
    ...uprightQuestions(clip),
    ...scaleQuestions(clip, placing),
  ];
}

function placeOf([point, checkpoint]: Spot, clip: MarkedClip, side: 1 | -1): SwingPoint | null {
  const at = marksAt(clip, checkpoint)?.points[point];
  return at === undefined ? null : toSwing(at, { side, tilt: 0 });
}

/** Whether more of them are surely the other way round than as they should be. */
function isContradicted(
  orders: readonly Order[],
  clip: MarkedClip,
  handedness: Handedness,
  placing: PlacingErrors,
): boolean {
  const votes = orders.map(([first, second]): number => {
    const [ahead, behind] = [first, second].map((spot) => placeOf(spot, clip, sideOf(handedness)));
    if (!ahead || !behind) return 0;
    const [sigma, other] = [first, second].map(([point, checkpoint]) => {
      const placed = marksAt(clip, checkpoint)?.points[point];
      return placingSigma(placing, clip.height, point, placed?.hidden ?? false, placed?.guess).sigma;
    });
    const by = ahead.along - behind.along;
    const least = first[1] === second[1] ? 0 : LEAST_WAY * clip.height;
    return Math.abs(by) > Math.max(least, SURE * Math.hypot(sigma ?? 0, other ?? 0)) ? Math.sign(by) : 0;
  });
  return votes.reduce((sum, vote) => sum + vote, 0) < 0;
}

function uprightQuestions(clip: MarkedClip): readonly ClipQuestion[] {
  const found = calibratingShapes(clip)
    .filter(isPlumbOrLevel)
    .flatMap((line): ClipQuestion | readonly [] => {
      const lean = Math.abs(leanOf(line));
      const { view } = clip;
      if (lean > MOST_LEAN) return { kind: 'crossed', view, role: line.role };
      return lean > MOST_ROLL ? { kind: 'leaning', view, role: line.role, degrees: toDegrees(lean) } : [];
    });
  // Copies of a line on other frames ask nothing new.
  return found.filter(
    (one, place) => found.findIndex((each) => JSON.stringify(each) === JSON.stringify(one)) === place,
  );
}

/** Radians from upright for a plumb, from level for a level; 0 for a line without length. */
function leanOf({ role, a, b }: LineShape): number {
  const [from, to] = [a, b].map((end) => toSwing(end, { side: 1, tilt: 0 }));
  if (from === undefined || to === undefined) return 0;
  const angle = role === 'plumb' ? inclineFromVertical(from, to) : inclineFromHorizontal(from, to);
  return angle === null ? 0 : wrapAngle(angle, Math.PI);
}

function scaleQuestions(clip: MarkedClip, placing: PlacingErrors): readonly ClipQuestion[] {
  const { view } = clip;
  const scale = scaleOf(clip, 'player', placingSigma(placing, clip.height, null, false).sigma);
  if (scale === null) return [];
  if (scale.isUnsure) return [{ kind: 'unsure-scale', view }];
  const legs = (['lead', 'trail'] as const).flatMap((side) => {
    const joints = ([`${side}-hip`, `${side}-knee`, `${side}-ankle`] as const).map((point) =>
      placeOf([point, 'address'], clip, 1),
    );
    const [hip, knee, ankle] = joints;
    return hip && knee && ankle ? [distance(hip, knee) + distance(knee, ankle)] : [];
  });
  if (legs.length === 0) return [];
  const legCm = Math.max(...legs) * scale.quantity.value;
  const u = legCm * Math.hypot(scale.quantity.u / scale.quantity.value, scale.depthU);
  const half = COVERAGE_FACTOR * u;
  return legCm - half > LEG.to || legCm + half < LEG.from ? [{ kind: 'size', view, legCm, u }] : [];
}
