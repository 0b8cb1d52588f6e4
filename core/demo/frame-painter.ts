import type { View } from '../model/words.ts';
import { project } from '../scene/camera.ts';
import type { Scenario } from '../scene/scenario.ts';
import { cameraOf, poseOfFrame } from '../scene/truth.ts';
import { backdropOf } from './backdrop.ts';
import type { Clothes } from './clothes.ts';
import { ballOf, clubOf } from './club-and-ball.ts';
import { layOver } from './compose.ts';
import { figureOf } from './figure.ts';
import { castShadow, newShadowMask } from './ground-shadow.ts';
import { clearRaster, newRaster, paintPieces } from './rasteriser.ts';

/**
 * Paints the frames of one view as RGBA: the backdrop once, then for each frame only what moves. A frame on which nothing
 * has moved since the last one is the very same array again, so a picture must not be changed by whoever gets it.
 */
export function framePainter(
  scenario: Scenario,
  view: View,
  clothes: Clothes,
): (frameIndex: number) => Uint8Array<ArrayBuffer> {
  const { width, height } = scenario.picture;
  const camera = cameraOf(scenario, view);
  const backdrop = backdropOf(scenario, view);
  const raster = newRaster(width, height);
  const mask = newShadowMask(width, height);
  let last: { readonly stand: string; readonly picture: Uint8Array<ArrayBuffer> } | null = null;
  return (frameIndex) => {
    const pose = poseOfFrame(scenario, frameIndex);
    const ballGone = (project(camera, pose.ball)?.x ?? -1) > width;
    const stand = JSON.stringify(ballGone ? { ...pose, ball: null } : pose);
    if (last?.stand === stand) return last.picture;
    const player = figureOf(pose, clothes);
    const club = clubOf(pose);
    const ball = ballOf(pose, scenario.ball.radius);
    const picture = new Uint8Array(backdrop);
    const grounded = pose.ball.y < 4 * scenario.ball.radius;
    castShadow(picture, width, mask, camera, [...player, ...club, ...(grounded ? [ball] : [])]);
    clearRaster(raster);
    paintPieces(raster, camera, [...player, ...club, ball]);
    layOver(picture, width, raster);
    last = { stand, picture };
    return picture;
  };
}
