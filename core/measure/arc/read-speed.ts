import { SPEED_PLACES, speedOnArc } from '../../geometry/arc-speed.ts';
import type { Reading, ReadingKey, ReadingNote, SharedPart, UncertaintySource } from '../../model/reading.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { slowingOf } from '../../time/swing-clock.ts';
import type { UncertainArc } from './arc-of-clip.ts';
import type { Scale } from '../camera/calibration.ts';
import type { CameraStand } from '../camera/stand.ts';
import { clubheadPathOf } from './clubhead-path.ts';
import { coverageFactor, effectiveFreedom } from '../uncertainty/freedom.ts';
import type { ArcContext } from './read-arc.ts';
import { missing } from '../readings/missing.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** True frames a second below which a clubhead is in too few of them. The list of readings of this project. */
export const FEWEST_FRAMES_A_SECOND = 120;

/**
 * Most that the club may turn from one frame to the next, radians (18 degrees). What is blurred is at most that long: its
 * middle then lies off the arc by no more than 1 - cos(9 degrees), 1.2 % of the radius. And a speed takes five places within
 * the 75 degrees that `FARTHEST_PLACE` leaves. Ours.
 */
export const MOST_TURN = (18 * Math.PI) / 180;

/** A blurred clubhead is placed to a tenth of its way in a frame, one standard deviation. Assumed, ours. */
export const BLUR_PLACING = 0.1;

const CM_PER_M = 100;

/** How fast the clubhead runs at impact, m/s; or why that cannot be said. */
export function readSpeed(key: ReadingKey, context: ArcContext, arc: UncertainArc): Reading {
  const { clip } = context;
  const slowing = slowingOf(clip);
  if (slowing === null || clip.captureRate === null) return missing(key, 'capture-rate-unknown');
  const { num, den } = clip.captureRate.framesPerSecond;
  if (num < FEWEST_FRAMES_A_SECOND * den) return missing(key, 'frames-too-few');
  const scale = context.scaleOf('ball');
  if (scale === null) return missing(key, 'known-length-missing');

  const secondsPerTick = (clip.timebase.num / clip.timebase.den) * slowing;
  const upright = arc.upright;
  const places = arc.places.map(({ pts }, i) => ({
    ...(upright[i] ?? { along: Number.NaN, up: Number.NaN }),
    seconds: pts * secondsPerTick,
  }));
  const impact = (clip.checkpoints.impact?.pts ?? Number.NaN) * secondsPerTick;
  const plain = speedOnArc(arc.fit, places, impact, { placing: 0, timing: 0, incline: 0 });
  if (plain.state === 'refused')
    return missing(key, 'path-missing', { path: { frames: SPEED_PLACES, round: 'impact' } });
  const way = (plain.speed.speed * den) / num;
  if (Math.abs(plain.speed.turning) * (den / num) > MOST_TURN) return missing(key, 'frame-turn');
  const placing = Math.hypot(arc.sigma, BLUR_PLACING * way);
  const incline = context.plane?.quantity.u ?? 0;
  const result = speedOnArc(arc.fit, places, impact, { placing, timing: 0, incline });
  if (result.state === 'refused')
    return missing(key, 'path-missing', { path: { frames: SPEED_PLACES, round: 'impact' } });

  const { speed, parts } = result.speed;
  const metres = (scale.quantity.value * planeFactor(context.stand, scale)) / CM_PER_M;
  const value = Math.abs(speed) * metres;
  const relative = scale.quantity.u / scale.quantity.value;
  const budget = [
    { source: 'placing', u: parts.placing * metres },
    { source: 'plane', u: parts.incline * metres },
    { source: 'scale', u: value * relative },
    { source: 'depth', u: value * Math.hypot(...depthParts(context.stand, scale).map(({ part }) => part)) },
  ] as const satisfies readonly { source: UncertaintySource; u: number }[];
  const u = Math.hypot(...budget.map((part) => part.u));
  const [placed, ...others] = budget.map((part) => part.u);
  const coverage = coverageFactor(
    effectiveFreedom([
      { u: placed ?? 0, freedom: arc.quantities[0]?.rests?.freedom ?? Infinity },
      { u: Math.hypot(...others), freedom: Infinity },
    ]),
  );
  const half = coverage * u;
  const path = clubheadPathOf(clip);
  return {
    ...key,
    state: 'measured',
    value,
    unit: 'm/s',
    u,
    interval: [Math.max(0, value - half), value + half],
    coverage,
    method: 'first-order',
    shared: depthParts(context.stand, scale).map((each) => ({ ...each, part: value * each.part })),
    budget: budget.filter((part) => part.u > 0).toSorted((one, other) => other.u - one.u),
    from: [],
    shapes: [...new Set([...(path === null ? [] : [path.id]), ...scale.shapeIds])],
    notes: notesOf(context, clip, scale),
  };
}

/** What a known length of its plane measures at the ankles' depth: D / (D - d). */
function planeFactor({ quantities, distanceAt, planeDepth }: CameraStand, { plane }: Scale): number {
  const distance = quantities[distanceAt]?.value ?? Number.NaN;
  return distance / (distance - depthOf(planeDepth(plane)));
}

/**
 * Relative errors of a length at the ball, signed: from how far ball and known length lie apart in depth, and from how far off
 * both are. The same in all swings of a day.
 */
function depthParts(
  { quantities, distanceAt, ballDepth, planeDepth }: CameraStand,
  { plane }: Scale,
): readonly SharedPart[] {
  const distance = quantities[distanceAt];
  if (distance === undefined) return [];
  const known = planeDepth(plane);
  const apart = depthOf(known) - ballDepth.value;
  const by = distance.shared ?? 'day';
  const far: SharedPart = { name: distance.name, by, part: (apart / distance.value ** 2) * distance.u };
  // What ball and known length have alike moves both.
  const alone = [ballDepth, ...known].filter(
    ({ name }, _, all) => all.filter((each) => each.name === name).length === 1,
  );
  return [
    far,
    ...alone.map(({ name, u }): SharedPart => {
      const part = ((name === ballDepth.name ? 1 : -1) * u) / distance.value;
      return { name, by: 'day', part };
    }),
  ];
}

function depthOf(depths: readonly Quantity[]): number {
  return depths.reduce((sum, { value }) => sum + value, 0);
}

function notesOf(context: ArcContext, clip: MarkedClip, scale: Scale): readonly ReadingNote[] {
  const notes: ReadingNote[] = [];
  if (placingSigma(context.placing, clip.height, 'clubhead', false).assumed) notes.push('placing-assumed');
  notes.push(scale.isOffPlane ? 'off-known-length-plane' : 'known-length-plane');
  if (context.lens !== null) notes.push('lens-straightened');
  if (context.plane === null) notes.push('no-plane');
  if (context.plane?.by === 'shaft') notes.push('plane-from-shaft');
  if (clip.captureRate?.confirmed === false) notes.push('capture-rate-unconfirmed');
  if (scale.isUnsure) notes.push('scale-unsure');
  return notes;
}
