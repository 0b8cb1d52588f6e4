import type { BodyPointId } from '../model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../model/mark.ts';
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
