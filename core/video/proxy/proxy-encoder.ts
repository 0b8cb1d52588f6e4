/**
 * The pictures for moving through a clip: small, upright, each coded by itself, so that any of them is decoded without
 * the others, forward as quick as backward. They are for the eye on its way; what is measured on and saved comes from
 * the clip itself.
 */

/** Names what the pictures are made with; copies made otherwise are made anew. */
export const PROXY_RECIPE = 'h264-crf20-4';

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
