import type { DecodedPicture } from '../../../core/sheet/load-picture.ts';
import { seeded } from '../../support/seeded.ts';

/** A plain made-up bay: sky, grass and mat in three bands, with `noise` levels of grain as a camera has. */
export function bay(width: number, height: number, noise = 0, seed = 1): DecodedPicture {
  const random = seeded(seed);
  const rgba = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    const part = y / height;
    const [red, green, blue] = part < 0.4 ? [150, 190, 230] : part < 0.75 ? [70, 130, 60] : [60, 100, 80];
    for (let x = 0; x < width; x++) {
      const grain = noise === 0 ? 0 : (random() - 0.5) * noise;
      const at = (y * width + x) * 4;
      rgba[at] = red + grain;
      rgba[at + 1] = green + grain;
      rgba[at + 2] = blue + grain;
      rgba[at + 3] = 255;
    }
  }
  return { width, height, rgba };
}
