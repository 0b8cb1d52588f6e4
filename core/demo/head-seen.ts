import type { Edges } from '../geometry/box.ts';
import type { View } from '../model/words.ts';
import type { Scenario } from '../scene/scenario.ts';
import { cameraOf, inPicture, poseOfFrame } from '../scene/truth.ts';
import { CLOTHES } from './clothes.ts';
import { headOf } from './figure.ts';

/** The upright box that head and cap just touch in the picture of a frame, as they are painted, pixels. */
export function headSeen(scenario: Scenario, view: View, frameIndex: number): Edges {
  const camera = cameraOf(scenario, view);
  // Every lesson's cap is cut alike; only its colour differs.
  const pieces = headOf(poseOfFrame(scenario, frameIndex), CLOTHES.now);
  const seen = pieces.flatMap(({ points }) => points.map((point) => inPicture(camera, point)));
  const [across, down] = [seen.map(({ x }) => x), seen.map(({ y }) => y)];
  return { left: Math.min(...across), top: Math.min(...down), right: Math.max(...across), bottom: Math.max(...down) };
}
