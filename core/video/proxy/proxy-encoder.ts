import type { PictureLayout } from '../../model/picture-layout.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { Size } from '../../time/display-size.ts';

/**
 * The pictures for moving through a clip: small, upright, each coded by itself, so that any of them is decoded without
 * the others, forward as quick as backward. They are for the eye on its way; what is measured on and saved comes from
 * the clip itself.
 */

/** Pixels. As large as the bench shows a frame on a laptop; a 1080-line copy took half as long again to make and paint. */
const LONGEST_SIDE = 1280;

/** Size of a clip's proxy pictures: upright, even sides (4:2:0), at most `LONGEST_SIDE`, never larger than the frame. */
export function proxySize(index: Pick<ClipIndex, 'width' | 'height'>): Size {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(index.width, index.height));
  const even = (side: number): number => Math.max(2, 2 * Math.round((side * scale) / 2));
  return { width: even(index.width), height: even(index.height) };
}

/** How the bytes of a clip's proxy pictures are to be read. */
export function proxyLayout(index: Pick<ClipIndex, 'width' | 'height'>): PictureLayout {
  return { kind: 'proxy', ...proxySize(index), matrix: 'bt709', fullRange: false };
}

/** Names what the pictures are made with; copies made otherwise are made anew. */
export const PROXY_RECIPE = 'h264-1280-crf20-2';

/**
 * The encoder. Every picture is an IDR picture with its parameter sets in front. `copy`: as much at once as there are
 * cores; `soon`: each picture leaves before the next one comes in, for a run that someone waits for.
 */
export function proxyEncoderArguments(purpose: 'copy' | 'soon'): string[] {
  const args = ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '1', '-crf', '20'];
  if (purpose === 'soon') args.push('-tune', 'zerolatency');
  // Without these a decoder has to guess, and guesses by the size.
  args.push('-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-color_range', 'tv');
  return args;
}
