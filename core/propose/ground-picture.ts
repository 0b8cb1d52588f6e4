import type { Luma, LumaClip } from './luma.ts';

/** Each sample as it is on most of the given frames: what passes quickly is not on it. At least one frame. */
export function medianPicture(clip: LumaClip, frames: readonly number[]): Luma {
  const pictures = frames.map((frame) => clip.at(frame));
  const result = new Uint8Array(clip.width * clip.height);
  const values = new Uint8Array(pictures.length);
  for (let at = 0; at < result.length; at += 1) {
    for (const [place, picture] of pictures.entries()) values[place] = picture[at] ?? 0;
    result[at] = values.toSorted()[values.length >> 1] ?? 0;
  }
  return result;
}
