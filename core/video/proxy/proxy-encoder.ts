/**
 * The pictures for moving through a clip: small, upright, each coded by itself, so that any of them is decoded without
 * the others, forward as quick as backward. They are for the eye on its way; what is measured on and saved comes from
 * the clip itself.
 */

/** Names what the pictures are made with; copies made otherwise are made anew. */
export const PROXY_RECIPE = 'h264-qp36-6';

/**
 * The edges of blocks are smoothed only in pictures that others are made from: nothing else depends on the rest, and in a
 * small picture nobody sees it (57 dB and more). It takes a twentieth off the work.
 */
export const QUICK_DECODING = ['-skip_loop_filter', 'noref'] as const;

/**
 * Fixed, since judging how hard each picture is took a fifth of encoding, and coarse, since most of the rest is the coding of grain: 36
 * leaves out a third of the bytes of 33. Of a noisy picture that takes 1.3 dB, which only one that stands still would show, and
 * that one is made sharp. (x264 codes key pictures by 3 less than it is told.)
 */
const QUANTISER = 36;

/**
 * The encoder. Every picture is an IDR picture with its parameter sets in front. `copy`: as much at once as there are
 * cores; `soon`: each picture leaves before the next one comes in, for a run that someone waits for.
 */
export function proxyEncoderArguments(purpose: 'copy' | 'soon'): string[] {
  const args = ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '1', '-qp', String(QUANTISER)];
  if (purpose === 'soon') args.push('-tune', 'zerolatency');
  // Without these a decoder has to guess, and guesses by the size.
  args.push('-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709', '-color_range', 'tv');
  return args;
}
