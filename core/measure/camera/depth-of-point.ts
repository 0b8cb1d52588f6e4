import { toSwing } from '../../geometry/point.ts';
import type { Stance, SwingPoint } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { PicturePoint } from '../../model/mark.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint, View } from '../../model/words.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { plumbOf } from './calibration.ts';
import { straightened } from './lens-of-clip.ts';
import { lookFrom } from './look-from.ts';
import { isOfOpinion } from './of-opinion.ts';
import { pixelsPerMetre } from './picture-scale.ts';
import { usualPlace } from './posture.ts';
import { ASSUMED_SET_UP } from './set-up-errors.ts';
import type { SetUpErrors } from './set-up-errors.ts';
import { toldBy, toldCameraOf } from './told-camera.ts';
import type { ToldCamera } from './told-camera.ts';

/** Part by which the other view's scale may be off where nothing tells from how near it was filmed. Ours. */
const OTHER_SCALE_U = 0.06;
/** And by which its known length was placed wrongly, a metre of some 400 pixels. */
const OTHER_LENGTH_U = 0.01;

/** How much nearer to the camera a point lies than the middle between the ankles at address, metres. */
export interface Depth {
  readonly value: number;
  /** What is unsure of it besides all that follows: of what is seen in the other view its click, and where a joint is taken to lie there. */
  readonly u: number;
  /** How far a joint is always taken to lie off in the other view. */
  readonly takenU: number;
  /** Metres for each radian that the other view's camera is turned, and that it is rolled: these move all depths together. */
  readonly perYaw: number;
  readonly perRoll: number;
  /** Part of the value by which all depths that the other view tells are wrong together; 0 where it does not tell it. */
  readonly scaleU: number;
  /** Seen in the other view at the same checkpoint; else taken from a usual posture. */
  readonly isSeen: boolean;
}

/** The same, told as where the other view shows the point across: not yet nearer or farther. */
type Across = Omit<Depth, 'isSeen'>;

/** Depths of a clip's points. */
export interface Depths {
  readonly of: (point: BodyPointId, checkpoint: Checkpoint) => Depth;
  /** How the other view's camera is turned and rolled, each told as how far it is off, radians; scales: as parts. None without one. */
  readonly by: { readonly yaw: Quantity; readonly roll: Quantity; readonly scales: readonly Quantity[] } | null;
}

/**
 * Depths of the points of a clip: of those that the swing's other view shows at the same checkpoint, from where they lie across
 * that view; of others from a usual posture, with its spread. Where ground marks tell the other view's camera, places are as they
 * would be seen from far off along its line. `side`: 1 for a right-hander.
 */
export function depthsIn(
  clip: MarkedClip,
  others: readonly MarkedClip[],
  side: 1 | -1,
  placing: PlacingErrors,
): Depths {
  const errors = placing.setUp ?? ASSUMED_SET_UP;
  const other = others.find(({ view }) => view !== clip.view);
  const seen = other === undefined ? null : acrossView(other, clip, side, placing);
  const depthOf: Depths['of'] = (point, checkpoint) => {
    const across = seen === null ? null : (seen.across(point, checkpoint) ?? byHips(seen.across, point, checkpoint));
    if (across !== null) return { ...across, value: nearer(clip.view, across.value), isSeen: true };
    const { target, ball, u } = usualPlace(point, checkpoint);
    const value = nearer(clip.view, clip.view === 'face-on' ? ball : target);
    return { value, u: errors.depth * u, takenU: 0, perYaw: 0, perRoll: 0, scaleU: 0, isSeen: false };
  };
  // Every reading asks for its points, and many readings have points in common.
  const known = new Map<Checkpoint, Map<BodyPointId, Depth>>();
  const of: Depths['of'] = (point, checkpoint) => {
    const there = known.get(checkpoint) ?? new Map<BodyPointId, Depth>();
    known.set(checkpoint, there);
    const depth = there.get(point) ?? depthOf(point, checkpoint);
    there.set(point, depth);
    return depth;
  };
  return { of, by: seen?.by ?? null };
}

/** The hips turn otherwise than usual by some 15 degrees, which carries a tailbone 10 cm behind them so far, metres. Ours. */
const TAILBONE_U = 0.03;

/**
 * A tailbone is marked down the line only, but the hips that it hangs on are seen face on too: it lies behind their middle, by a
 * usual turn. null for any other point, and without both hips.
 */
function byHips(
  across: (point: BodyPointId, checkpoint: Checkpoint) => Across | null,
  point: BodyPointId,
  checkpoint: Checkpoint,
): Across | null {
  if (point !== 'tailbone') return null;
  const [lead, trail] = [across('lead-hip', checkpoint), across('trail-hip', checkpoint)];
  if (lead === null || trail === null) return null;
  const usual = (of: BodyPointId) => usualPlace(of, checkpoint).target;
  const mean = (of: keyof Across) => (lead[of] + trail[of]) / 2;
  return {
    value: mean('value') + usual('tailbone') - (usual('lead-hip') + usual('trail-hip')) / 2,
    ...{ u: Math.hypot(lead.u, trail.u) / 2, scaleU: mean('scaleU') },
    takenU: Math.hypot(Math.hypot(lead.takenU, trail.takenU) / 2, TAILBONE_U),
    ...{ perYaw: mean('perYaw'), perRoll: mean('perRoll') },
  };
}

/** The camera down the line stands away from the target, the one face on stands on the ball's side. */
function nearer(view: View, along: number): number {
  return view === 'face-on' ? along : -along;
}

/** Where the other view shows its points across, metres from the middle between the ankles at address. null without both ankles. */
function acrossView(other: MarkedClip, own: MarkedClip, side: 1 | -1, placing: PlacingErrors) {
  const errors = placing.setUp ?? ASSUMED_SET_UP;
  const { perMetre, plumb, camera, from } = lookedAt(other, side, placing);
  const ownLook = lookedAt(own, side, placing);
  const plain = fromAnkles(own, ownLook.perMetre, { side, tilt: 0 });
  // Each view tells the other's depths: a camera turned by 3 degrees sees what is a metre nearer 5 cm beside its place.
  const seen = from(ownLook.from(from(plain)));
  if (seen === null) return null;
  const widened = errors.depth;
  const scales = scalesOf(camera, errors);
  const scaleU = Math.hypot(...scales.map(({ u }) => u));
  const across = (point: BodyPointId, checkpoint: Checkpoint): Across | null => {
    const placed = marksAt(other, checkpoint)?.points[point];
    const place = seen(point, checkpoint);
    if (placed === undefined || place === null) return null;
    const click = placingSigma(placing, other.height, point, placed.hidden, placed.guess).sigma / perMetre;
    const { shared, anew } = isOfOpinion(point) ? errors.definition : { shared: 0, anew: 0 };
    return {
      value: place.along,
      ...{ u: widened * Math.hypot(click, anew), takenU: widened * shared, scaleU },
      ...{ perYaw: plain?.(point, checkpoint)?.along ?? 0, perRoll: place.up },
    };
  };
  const ofCamera = { value: 0, source: 'depth', shared: 'day' } as const;
  const byMarks = { ...ofCamera, shared: 'marks' } as const;
  const [yawName, rollName] = ['yaw of the other view', 'roll of the other view'];
  const yaw: Quantity =
    camera === null
      ? { name: yawName, ...ofCamera, u: widened * errors.yaw }
      : { name: camera.named(yawName), ...byMarks, u: widened * camera.yaw.u };
  const roll: Quantity =
    plumb === null
      ? { name: rollName, ...ofCamera, u: widened * errors.roll }
      : { name: toldBy(rollName, plumb.value), ...byMarks, u: widened * plumb.u };
  return { across, by: { yaw, roll, scales } };
}

/** By which parts all depths that a view tells are wrong together. */
function scalesOf(camera: ToldCamera | null, errors: SetUpErrors): readonly Quantity[] {
  const part = { value: 1, source: 'depth' } as const;
  const name = 'scale of depths';
  if (camera?.perMetre) {
    const { value, u, alwaysU } = camera.perMetre;
    return [
      { ...part, name: camera.named(name), u: (errors.depth * u) / value, shared: 'marks' },
      { ...part, name: 'height of the ankles', u: errors.depth * alwaysU, shared: 'player' },
    ];
  }
  const u = camera === null ? OTHER_SCALE_U : Math.hypot(errors.plane / camera.distance.value, OTHER_LENGTH_U);
  return [{ ...part, name, u: errors.depth * u, shared: 'day' }];
}

/** Where a clip shows a point, metres from the middle of the ankles at address, which the other view sees alike. */
type FromAnkles = (point: BodyPointId, checkpoint: Checkpoint) => SwingPoint | null;

/** A clip set upright by its plumb. `from`: seen from far off along its line where marks tell its camera, by depths that another view tells. */
function lookedAt(clip: MarkedClip, side: 1 | -1, placing: PlacingErrors) {
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const { clip: straight } = straightened(clip, sigma);
  const plumb = plumbOf(straight, side, sigma)?.quantity ?? null;
  const camera = toldCameraOf(straight, side, sigma);
  const perMetre = pixelsPerMetre(clip, placing, camera);
  const look =
    camera === null
      ? null
      : lookFrom(clip, perMetre, {
          ...{ yaw: camera.yaw.value, pitch: camera.pitch.value, distance: camera.distance.value, lens: 0 },
        });
  const straighten = straight.straighten ?? ((at: PicturePoint) => at);
  const from = (across: FromAnkles | null): FromAnkles | null =>
    fromAnkles(clip, perMetre, { side, tilt: plumb?.value ?? 0 }, (at, point, checkpoint) => {
      const off = across?.(point, checkpoint) ?? null;
      return look === null || off === null ? at : look(straighten(at), nearer(clip.view, off.along));
    });
  return { perMetre, plumb, camera, from };
}

type Moved = (at: PicturePoint, point: BodyPointId, checkpoint: Checkpoint) => PicturePoint;

function fromAnkles(clip: MarkedClip, perMetre: number, stance: Stance, moved: Moved = (at) => at): FromAnkles | null {
  const seen = (point: BodyPointId, checkpoint: Checkpoint): SwingPoint | null => {
    const placed = marksAt(clip, checkpoint)?.points[point];
    return placed === undefined ? null : toSwing(moved(placed, point, checkpoint), stance);
  };
  const [lead, trail] = [seen('lead-ankle', 'address'), seen('trail-ankle', 'address')];
  if (lead === null || trail === null) return null;
  const [along, up] = [(lead.along + trail.along) / 2, (lead.up + trail.up) / 2];
  return (point: BodyPointId, checkpoint: Checkpoint): SwingPoint | null => {
    const at = seen(point, checkpoint);
    return at === null ? null : { along: (at.along - along) / perMetre, up: (at.up - up) / perMetre };
  };
}
