import { placeBy } from '../compare/lay-over.ts';
import type { Affine } from '../compare/lay-over.ts';
import { cornersOf } from '../geometry/box.ts';
import { BODY_POINTS } from '../model/body-points.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../model/mark.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';
import { CHECKPOINTS } from '../model/words.ts';
import type { Checkpoint } from '../model/words.ts';
import type { Box } from './box.ts';

/** Room left around the outermost body point, as a part of the height of all points together. */
export const MARGIN = 0.14;
/** A crop that would keep more than this part of the picture is not worth the missing surroundings. */
const NOT_WORTH_IT = 0.8;
/**
 * Points of one end of the player alone say nothing about where the other is: a crop takes one of the upper body and one at
 * the ground, so that no cap and no foot is cut off.
 */
export const UPPER: readonly BodyPointId[] = ['head-centre', 'neck-base', 'lead-shoulder', 'trail-shoulder'];
export const LOWER: readonly BodyPointId[] = [
  'lead-ankle',
  'trail-ankle',
  'lead-heel',
  'trail-heel',
  'lead-toe',
  'trail-toe',
  'ball',
];
/** Fewer points say too little about where the player is. */
export const FEWEST_POINTS = 4;

/**
 * The part of the picture around the player: all body points of all given frames of one clip, so that frames cropped
 * alike can be compared side by side. Whole pixels, inside the picture; null when there are too few points, none of the
 * upper body or none at the ground, or nearly all of the picture would be kept anyway.
 */
export function cropAroundPlayer(
  frames: readonly FrameMarks[],
  picture: { readonly width: number; readonly height: number },
): Box | null {
  const points = frames.flatMap((marks): readonly PicturePoint[] => Object.values(marks.points));
  const has = (ids: readonly BodyPointId[]) => ids.some((id) => frames.some((marks) => marks.points[id] !== undefined));
  if (points.length < FEWEST_POINTS || !has(UPPER) || !has(LOWER)) return null;
  const across = points.map((point) => point.x);
  const down = points.map((point) => point.y);
  const margin = (Math.max(...down) - Math.min(...down)) * MARGIN;
  const left = Math.max(0, Math.floor(Math.min(...across) - margin));
  const top = Math.max(0, Math.floor(Math.min(...down) - margin));
  const right = Math.min(picture.width, Math.ceil(Math.max(...across) + margin));
  const bottom = Math.min(picture.height, Math.ceil(Math.max(...down) + margin));
  const box = { x: left, y: top, width: right - left, height: bottom - top };
  if (!(box.width > 0 && box.height > 0)) return null;
  return box.width * box.height > NOT_WORTH_IT * picture.width * picture.height ? null : box;
}

type CroppedClip = Pick<MarkedClip, 'checkpoints' | 'marks' | 'width' | 'height'>;

/** From then on the ball flies: round it there would be more sky than player. */
const IN_FLIGHT: ReadonlySet<Checkpoint> = new Set(['through', 'finish']);

/** The same round all named frames of a clip, club and all but for a ball in flight: what the sheet's cells show of it. */
export function cropOfClip(clip: CroppedClip): Box | null {
  const frames = CHECKPOINTS.flatMap((checkpoint) => {
    const marks = marksAt(clip, checkpoint);
    return marks === null ? [] : [without(marks, IN_FLIGHT.has(checkpoint) ? ['ball'] : [])];
  });
  return cropAroundPlayer(frames, clip);
}

/**
 * The same without what leaves the player: the clubhead, which swings far above the head, and the ball once it flies. What a
 * large picture that can be moved is fitted to, on the bench and in the comparison.
 */
export function playerOfClip(clip: CroppedClip): Box | null {
  const frames = CHECKPOINTS.flatMap((checkpoint) => {
    const marks = marksAt(clip, checkpoint);
    return marks === null ? [] : [without(marks, checkpoint === 'address' ? ['clubhead'] : ['clubhead', 'ball'])];
  });
  return cropAroundPlayer(frames, clip);
}

function without(marks: FrameMarks, left: readonly BodyPointId[]): FrameMarks {
  const kept = BODY_POINTS.filter((point) => !left.includes(point));
  const placed = kept.flatMap((point) => {
    const at = marks.points[point];
    return at === undefined ? [] : [[point, at] as const];
  });
  return { ...marks, points: Object.fromEntries(placed) };
}

/**
 * The part of now's picture that shows the player of both swings alike, in now's pixels: round now's, and round then's as
 * it lies there. null where neither says where the player is.
 */
export function playerOfBoth(then: CroppedClip, now: CroppedClip, laid: Affine): Box | null {
  const [before, after] = [playerOfClip(then), playerOfClip(now)];
  const corners = [
    ...(before === null ? [] : cornersOf(before).map((corner) => placeBy(laid, corner))),
    ...(after === null ? [] : cornersOf(after)),
  ];
  if (corners.length === 0) return null;
  const [across, down] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const [x, y] = [Math.min(...across), Math.min(...down)];
  return { x, y, width: Math.max(...across) - x, height: Math.max(...down) - y };
}
