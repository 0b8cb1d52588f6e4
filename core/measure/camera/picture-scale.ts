import type { BodyPointId } from '../../model/body-points.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { scaleOf } from './calibration.ts';
import type { ToldCamera } from './told-camera.ts';

const CM_PER_M = 100;

/** A head's middle stands so high above an ankle at address, metres: a player of 1.75 m who is bent by 35 degrees. Ours, to a tenth. */
const HEAD_OVER_ANKLE = 1.35;

/** A player fills three quarters of a picture that he was filmed for: 2.1 m are as high as it. Ours. */
const PICTURE_METRES = 2.1;

/**
 * Pixels of a metre at the player: from ground marks and ankles; else from a known length, which may lie off his plane; else from how tall the player stands at address; else from how a
 * player is usually filmed. Good enough to tell what depth and a turned camera do; no reading is stated in it.
 */
export function pixelsPerMetre(clip: MarkedClip, placing: PlacingErrors, told: ToldCamera | null = null): number {
  if (told?.perMetre) return told.perMetre.value;
  const { sigma } = placingSigma(placing, clip.height, null, false);
  const scale = scaleOf(clip, 'player', sigma);
  if (scale !== null) return CM_PER_M / scale.quantity.value;
  const points = marksAt(clip, 'address')?.points ?? {};
  const heights = (['lead-ankle', 'trail-ankle'] as const satisfies readonly BodyPointId[]).flatMap((ankle) => {
    const [foot, head] = [points[ankle], points['head-centre']];
    return foot === undefined || head === undefined ? [] : [foot.y - head.y];
  });
  const tall = heights.reduce((sum, height) => sum + height, 0) / heights.length;
  return tall > 0 ? tall / HEAD_OVER_ANKLE : clip.height / PICTURE_METRES;
}
