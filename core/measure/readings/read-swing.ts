import { sideOf } from '../../geometry/point.ts';
import { READING_IDS } from '../../model/reading.ts';
import type { Plane } from '../../model/mark.ts';
import type { Reading, ReadingKey } from '../../model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../../model/swing.ts';
import { CHECKPOINTS, type Handedness } from '../../model/words.ts';
import { hasKnownLength, plumbOf, scaleOf } from '../camera/calibration.ts';
import type { Scale } from '../camera/calibration.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { isReadAt } from '../catalogue/where-read.ts';
import { cameraPlaceOf } from '../camera/camera-of-clip.ts';
import { cameraStandOf } from '../camera/stand.ts';
import { toldCameraOf } from '../camera/told-camera.ts';
import { groundOf } from '../camera/ground.ts';
import { ASSUMED_PLACING, placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { straightened } from '../camera/lens-of-clip.ts';
import { arcContextOf, readArc, readArcSpeed } from '../arc/read-arc.ts';
import type { ArcContext } from '../arc/read-arc.ts';
import { readPlaced } from './read-placed.ts';
import type { ClipContext } from './read-placed.ts';
import { readTimed } from './read-times.ts';

/** `calibrated`: centimetres where there is a known length. `relative`: known lengths are left aside. */
export type Lengths = 'calibrated' | 'relative';

/**
 * Everything that can be read from one swing, clip by clip, in the order of the checkpoints and then of the list of
 * readings. For each named checkpoint every reading of that view that is made there is in the list: measured, or
 * missing with the reason and what to place or name. An unmarked swing with no named frame gives an empty list.
 *
 * The 95 % interval speaks for the placing of points, shapes and events, for where joints are taken to lie, for depths and for
 * the camera: where it stands as far as marks tell it, else where a camera stands that is set up by eye.
 */
export function readSwing(swing: MarkedSwing, placing: PlacingErrors = ASSUMED_PLACING): readonly Reading[] {
  return swing.clips.flatMap((clip) => readClip(swing, clip, placing, 'calibrated'));
}

interface Made {
  readonly handedness: Handedness;
  readonly placing: PlacingErrors;
  readonly lengths: Lengths;
  /** The swing's other views: they tell depths, and down the line the incline of the arc. */
  readonly others: readonly MarkedClip[];
  readonly readings: readonly Reading[];
}

/** What was read from a clip goes with the clip. Clips are values that never change, so neither does what they say. */
const madeFrom = new WeakMap<MarkedClip, Made[]>();

/**
 * As `readSwing`, for one clip of it. The same clip is read once, however often it is asked for: after an edit only the
 * clip that was edited is read anew, not the other view and not the earlier swing.
 */
export function readClip(
  swing: Pick<MarkedSwing, 'handedness' | 'clips'>,
  clip: MarkedClip,
  placing: PlacingErrors,
  lengths: Lengths,
): readonly Reading[] {
  const { handedness } = swing;
  // Depths and the incline of the clubhead's arc come from another view.
  const others = swing.clips.filter((each) => each !== clip);
  const inUse = hasKnownLength(clip) ? lengths : 'relative';
  const before = madeFrom.get(clip) ?? [];
  const known = before.find(
    (made) =>
      made.handedness === handedness &&
      made.placing === placing &&
      made.lengths === inUse &&
      isSame(made.others, others),
  );
  if (known !== undefined) return known.readings;
  const readings = readAnew(swing, clip, placing, inUse, others);
  madeFrom.set(clip, [...before, { handedness, placing, lengths: inUse, others, readings }]);
  return readings;
}

function isSame(one: readonly MarkedClip[], other: readonly MarkedClip[]): boolean {
  return one.length === other.length && one.every((clip, i) => clip === other[i]);
}

function readAnew(
  swing: Pick<MarkedSwing, 'handedness'>,
  clip: MarkedClip,
  placing: PlacingErrors,
  lengths: Lengths,
  others: readonly MarkedClip[],
): readonly Reading[] {
  const context = clipContextOf(sideOf(swing.handedness), clip, placing, lengths, others);
  // Only face on, and only once for all that is read from the arcs.
  let arcs: ArcContext | null = null;
  const withArcs = () => (arcs ??= arcContextOf(context));
  return keysOf(clip).map((key) => readOne(key, context, withArcs));
}

/** What all readings of a clip share; `others` are the swing's other views. */
export function clipContextOf(
  side: 1 | -1,
  clip: MarkedClip,
  placing: PlacingErrors,
  lengths: Lengths,
  others: readonly MarkedClip[],
): ClipContext {
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const { clip: straight, lens } = straightened(clip, sigma);
  // Known from ground marks, else assumed: how much depth matters depends on it.
  const camera = cameraPlaceOf(straight, side, sigma);
  const distance = toldCameraOf(straight, side, sigma)?.distance.value;
  const scales = new Map<Plane, Scale | null>();
  const scaleIn = (plane: Plane): Scale | null => {
    const known = scales.get(plane);
    const scale = known === undefined ? scaleOf(straight, plane, sigma, distance) : known;
    scales.set(plane, scale);
    return scale;
  };
  return {
    clip,
    side,
    placing,
    plumb: plumbOf(straight, side, sigma),
    scaleOf: (plane) => (lengths === 'calibrated' ? scaleIn(plane) : null),
    ground: groundOf(straight, sigma),
    isGroundMixedUp: camera?.state === 'told' && camera.isMixedUp,
    lens,
    stand: cameraStandOf(clip, others, side, placing),
    others,
  };
}

function keysOf(clip: MarkedClip): readonly ReadingKey[] {
  const keys: ReadingKey[] = [];
  for (const checkpoint of CHECKPOINTS) {
    if (clip.checkpoints[checkpoint] === undefined) continue;
    for (const id of READING_IDS) {
      if (!isReadAt({ id, view: clip.view, checkpoint })) continue;
      for (const aspect of CATALOGUE[id].aspects)
        if (aspect === 'value' || checkpoint !== 'address') keys.push({ id, aspect, view: clip.view, checkpoint });
    }
  }
  return keys;
}

function readOne(key: ReadingKey, context: ClipContext, withArcs: () => ArcContext): Reading {
  const entry = CATALOGUE[key.id];
  if ('spans' in entry) return readTimed(entry, key, context.clip, context.placing);
  if (entry.quantity === 'speed') return readArcSpeed(key, withArcs());
  return entry.quantity === 'arc' ? readArc(entry, key, withArcs()) : readPlaced(entry, key, context);
}
