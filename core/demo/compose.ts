import { FINE } from './rasteriser.ts';
import type { Raster } from './rasteriser.ts';

/** Depth step, in metres, behind which a farther surface is darkened so that limbs stand out from the body. */
const STEP = 0.035;
const STEP_DARK = 0.74;
/** How far from the nearer surface that shadow reaches, in samples. */
const STEP_REACH = 3;

/** Lays the raster over a picture (RGBA, opaque): edges smoothed, farther surfaces darkened beside nearer ones. */
export function layOver(picture: Uint8Array, width: number, raster: Raster): void {
  const { nearness, colours, lefts, rights } = raster;
  const wide = raster.width;
  const { top, bottom } = raster.touched;
  const samples = FINE * FINE;
  for (let y = Math.floor(top / FINE); y <= Math.floor(bottom / FINE); y += 1) {
    let left = wide;
    let right = -1;
    for (let row = y * FINE; row < (y + 1) * FINE; row += 1) {
      left = Math.min(left, lefts[row] ?? wide);
      right = Math.max(right, rights[row] ?? -1);
    }
    for (let x = Math.floor(left / FINE); x <= Math.floor(right / FINE); x += 1) {
      let red = 0;
      let green = 0;
      let blue = 0;
      let covered = 0;
      for (let sample = 0; sample < samples; sample += 1) {
        const at = (y * FINE + (sample >> 1)) * wide + x * FINE + (sample & 1);
        const near = nearness[at] ?? 0;
        if (near === 0) continue;
        const rgb = colours[at] ?? 0;
        // 1/d falls by STEP/d^2 over a step of STEP metres.
        const limit = near + STEP * near * near;
        const beside =
          (nearness[at + STEP_REACH] ?? 0) > limit ||
          (nearness[at - STEP_REACH] ?? 0) > limit ||
          (nearness[at + STEP_REACH * wide] ?? 0) > limit ||
          (nearness[at - STEP_REACH * wide] ?? 0) > limit;
        const keep = beside ? STEP_DARK : 1;
        covered += 1;
        red += (rgb & 255) * keep;
        green += ((rgb >> 8) & 255) * keep;
        blue += ((rgb >> 16) & 255) * keep;
      }
      if (covered === 0) continue;
      const at = (y * width + x) * 4;
      const behind = samples - covered;
      picture[at] = ((picture[at] ?? 0) * behind + red) / samples;
      picture[at + 1] = ((picture[at + 1] ?? 0) * behind + green) / samples;
      picture[at + 2] = ((picture[at + 2] ?? 0) * behind + blue) / samples;
    }
  }
}
