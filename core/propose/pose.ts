import type { BodyPointId } from '../model/body-points.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { SeenPoint, SeenPoints } from '../model/proposed-points.ts';
import type { Handedness, View } from '../model/words.ts';

/** A square of a picture that is looked at, turned so that the body stands upright in it. Pixels and radians clockwise. */
export interface PoseSquare {
  readonly centre: PicturePoint;
  readonly side: number;
  readonly turn: number;
}

/** A place that the pose model names, in pixels of the picture. `seen`: how sure it is that nothing covers it, 0 to 1. */
export interface Landmark extends PicturePoint {
  readonly seen: number;
}

/** The model's landmarks in its order: 33 of the body, then two that say where the body is and how large. */
export const LANDMARKS = 35;
const BODY = 33;
const REACH = 34;
/** The square is so many times as large as the circle round the body that those two give (the model's own description). */
const ROOM = 1.25;

/** The square to look at first, of which nothing is known: all of the picture. */
export function wholePicture(width: number, height: number): PoseSquare {
  return { centre: { x: width / 2, y: height / 2 }, side: Math.max(width, height), turn: 0 };
}

/** The square round the body that was found, with the body upright in it. Null where there is hardly one. */
export function squareRound(landmarks: readonly Landmark[]): PoseSquare | null {
  const [middle, reach] = [landmarks[BODY], landmarks[REACH]];
  if (middle === undefined || reach === undefined) return null;
  const [x, y] = [reach.x - middle.x, reach.y - middle.y];
  const radius = Math.hypot(x, y);
  if (!(radius > 4)) return null;
  return { centre: { x: middle.x, y: middle.y }, side: 2 * ROOM * radius, turn: Math.PI / 2 - Math.atan2(-y, x) };
}

/** Pairs of the model's landmarks, the player's left one and right one. */
const PAIRS = {
  ear: [7, 8],
  shoulder: [11, 12],
  elbow: [13, 14],
  hip: [23, 24],
  knee: [25, 26],
  ankle: [27, 28],
  heel: [29, 30],
  toe: [31, 32],
} as const;
const SIDED = ['shoulder', 'elbow', 'hip', 'knee', 'ankle', 'heel', 'toe'] as const;

/**
 * How far the model's place lies from a careful marking, standard deviation in thousandths of the square's side: as measured
 * on the invented player (16 frames) and on a real swing (3 frames); docs/proposals.md.
 */
const ERRORS: Readonly<Partial<Record<BodyPointId, number>>> = {
  'head-centre': 12,
  'neck-base': 25,
  tailbone: 25,
  'lead-hip': 18,
  'trail-hip': 18,
  'lead-knee': 18,
  'trail-knee': 18,
  'lead-ankle': 14,
  'trail-ankle': 14,
  'lead-heel': 15,
  'trail-heel': 15,
};
/** Of shoulders and elbows, which turn, and of toes, where the shoe's tip is meant and not the toes. */
const LARGE_ERROR = 35;
/** What is covered is guessed by the model too: its error is so many times larger. */
const COVERED = 2;
const SEEN = 0.5;
/** The neck base lies above the middle of the shoulders, by this part of the way to the middle of the head (as measured). */
const NECK = 0.35;
/** The tailbone lies behind the middle of the hips, seen down the line; thousandths of the square's side (as measured). */
const BEHIND = { x: 36, y: 15 } as const;

/**
 * The body points that a view uses, from the model's landmarks. Neck base and tailbone are derived: the one from the middle of the
 * shoulders, the other from that of the hips. Club and ball are none of the model's.
 *
 * Face on the player's lead side is toward the target, and the feet stay where they are. So a player whom the model took for one
 * seen from behind is turned round.
 */
export function bodyPointsOf(
  landmarks: readonly Landmark[],
  { side }: PoseSquare,
  { view, handedness }: { readonly view: View; readonly handedness: Handedness },
): SeenPoints {
  const at = (place: number): Landmark => landmarks[place] ?? { x: Number.NaN, y: Number.NaN, seen: 0 };
  const [leftAnkle, rightAnkle] = PAIRS.ankle.map(at) as [Landmark, Landmark];
  // The camera looks a right-hander in the face, whose left is then at the right of the picture; so it is for a left-hander.
  const isSwapped = view === 'face-on' && leftAnkle.x < rightAnkle.x;
  const [lead, trail] = (handedness === 'right') !== isSwapped ? ([0, 1] as const) : ([1, 0] as const);
  const found: Partial<Record<BodyPointId, SeenPoint>> = {};
  const put = (point: BodyPointId, { x, y, seen }: Landmark): void => {
    if (!Number.isFinite(x) || !Number.isFinite(y)) return;
    const error = ((ERRORS[point] ?? LARGE_ERROR) * side) / 1000;
    found[point] = { x, y, guess: seen < SEEN ? COVERED * error : error };
  };
  for (const joint of SIDED) {
    if (joint === 'elbow' && view !== 'face-on') continue;
    put(`lead-${joint}`, at(PAIRS[joint][lead]));
    put(`trail-${joint}`, at(PAIRS[joint][trail]));
  }
  put('head-centre', between(at(7), at(8)));
  const shoulders = between(at(11), at(12));
  put('neck-base', toward(shoulders, between(at(7), at(8)), NECK));
  if (view === 'down-the-line') {
    const hips = between(at(23), at(24));
    const forward = handedness === 'right' ? 1 : -1;
    const back = { x: (-forward * BEHIND.x * side) / 1000, y: (-BEHIND.y * side) / 1000 };
    put('tailbone', { ...hips, x: hips.x + back.x, y: hips.y + back.y });
  }
  return found;
}

const between = (one: Landmark, other: Landmark): Landmark => toward(one, other, 1 / 2);

function toward(from: Landmark, to: Landmark, part: number): Landmark {
  const { x, y } = { x: from.x + part * (to.x - from.x), y: from.y + part * (to.y - from.y) };
  return { x, y, seen: Math.min(from.seen, to.seen) };
}

/**
 * Of several looks at one body, as of frames next to each other, the middle one of each landmark in x and in y: one look that
 * went astray moves nothing.
 */
export function middleLandmarks(looks: readonly (readonly Landmark[])[]): readonly Landmark[] {
  const middle = (values: readonly number[]): number => {
    const sorted = values.toSorted((one, other) => one - other);
    const [low, high] = [sorted[(sorted.length - 1) >> 1] ?? Number.NaN, sorted[sorted.length >> 1] ?? Number.NaN];
    return (low + high) / 2;
  };
  return Array.from({ length: LANDMARKS }, (_, place) => {
    const each = looks.flatMap((landmarks) => landmarks[place] ?? []);
    return {
      x: middle(each.map(({ x }) => x)),
      y: middle(each.map(({ y }) => y)),
      seen: middle(each.map(({ seen }) => seen)),
    };
  });
}
