/** What stands for a picture that is still coming, where nothing of its clip was seen yet: neither black nor glaring. */
const UNKNOWN = '#5b625f';
/** Pixels each way that a picture is shrunk to: enough for a mean, and next to nothing to read back. */
const SIDE = 8;

/** By clip, for as long as the program runs. */
const known = new Map<string, string>();

/** The mean colour of the first picture that was seen of a clip, as a colour of a canvas or a style. */
export function meanColourOf(clip: string): string {
  return known.get(clip) ?? UNKNOWN;
}

/** Learns the colour from a picture; of each clip once, since its frames hardly differ. */
export function learnMeanColour(clip: string, picture: CanvasImageSource): void {
  if (known.has(clip)) return;
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [SIDE, SIDE];
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) return;
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, 0, 0, SIDE, SIDE);
  known.set(clip, meanOf(context.getImageData(0, 0, SIDE, SIDE).data));
}

/** Of samples red, green, blue, alpha, four a pixel, one pixel or more. */
export function meanOf(samples: ArrayLike<number>): string {
  const sums = [0, 0, 0];
  for (let at = 0; at + 3 < samples.length; at += 4)
    for (const part of [0, 1, 2]) sums[part] = (sums[part] ?? 0) + (samples[at + part] ?? 0);
  const pixels = Math.floor(samples.length / 4);
  return `rgb(${sums.map((sum) => String(Math.round(sum / pixels))).join(' ')})`;
}
