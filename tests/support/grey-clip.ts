import { encodeClip } from '../../core/video/process/encode-clip.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';

const DARKEST = 24;
const STEP = 8;
/** Most frames whose greys stay apart. */
export const MOST_GREY_FRAMES = 28;

export interface GreyClip {
  readonly ffmpeg: Ffmpeg;
  readonly out: string;
  readonly frames: number;
  readonly width?: number;
  readonly height?: number;
}

/** Makes an MP4 in which every frame is one even grey of its own, so that any patch of a picture tells its frame. */
export async function makeGreyClip({ ffmpeg, out, frames, width = 320, height = 240 }: GreyClip): Promise<void> {
  if (frames > MOST_GREY_FRAMES) throw new Error(`frames must be at most ${MOST_GREY_FRAMES}`);
  async function* pictures(): AsyncGenerator<Uint8Array> {
    for (let index = 0; index < frames; index++) yield new Uint8Array(width * height * 4).fill(DARKEST + STEP * index);
  }
  await encodeClip({
    ffmpeg,
    width,
    height,
    rate: { num: 120, den: 1 },
    frames: pictures(),
    sound: null,
    out,
  });
}

/** Which frame of a grey clip a grey came from, or null when it is none of them. 0..255. */
export function frameOfGrey(grey: number): number | null {
  const index = (grey - DARKEST) / STEP;
  return Math.abs(index - Math.round(index)) < 0.4 && index > -0.5 && index < MOST_GREY_FRAMES
    ? Math.round(index)
    : null;
}
