import type { Landmark, PoseSquare } from '../propose/pose.ts';
import { middleLandmarks, squareRound, wholePicture } from '../propose/pose.ts';
import type { PoseModel, RgbaPicture } from './pose-model.ts';

/** The body as it was found: its landmarks, and the square that they were found in. */
export interface FoundPose {
  readonly landmarks: readonly Landmark[];
  readonly square: PoseSquare;
}

/** Looks at all of the picture first, then closer; so many times in all. */
const LOOKS = 4;
/** Below it there is nobody. */
const SURE = 0.5;

/**
 * Finds the body in the middle one of some pictures next to each other, and looks at the others where it stands there. Null
 * where there is nobody.
 */
export async function findPose(model: PoseModel, pictures: readonly RgbaPicture[]): Promise<FoundPose | null> {
  const middle = pictures[pictures.length >> 1];
  if (middle === undefined) return null;
  let square = wholePicture(middle.width, middle.height);
  for (let looks = 1; looks < LOOKS; looks += 1) {
    const { landmarks, sure } = await model.look(middle, square);
    const closer = squareRound(landmarks);
    if (sure < SURE || closer === null) return null;
    square = closer;
  }
  const looks: (readonly Landmark[])[] = [];
  for (const picture of pictures) {
    const { landmarks, sure } = await model.look(picture, square);
    if (sure >= SURE) looks.push(landmarks);
  }
  return looks.length === 0 ? null : { landmarks: middleLandmarks(looks), square };
}
