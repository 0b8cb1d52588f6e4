import type { PictureLayout } from '../../model/picture-layout.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { Size } from '../../time/display-size.ts';

/**
 * The longer side of pictures for moving through a clip, pixels, rising. The bench shows a frame about as large as two
 * thirds of its screen; what is larger costs making and painting, and nobody sees it.
 */
export const PROXY_SIDES = [960, 1280] as const;
export type ProxySide = (typeof PROXY_SIDES)[number];

/** The same of pictures for a strip, which shows them 36 lines high, twice as fine at most. */
export const STRIP_SIDE = 320;
/** Of any small picture. */
export type PictureSide = ProxySide | typeof STRIP_SIDE;

/** Where no screen is known. A 1080-line copy took half as long again to make and paint. */
export const LARGEST_SIDE: ProxySide = 1280;

const PART_OF_SCREEN = 2 / 3;

/** The side that suits a screen whose longer side has so many pixels, > 0; of several screens the largest counts. */
export function sideForScreen(pixels: number): ProxySide {
  return PROXY_SIDES.find((side) => side >= pixels * PART_OF_SCREEN) ?? LARGEST_SIDE;
}

/** Size of a clip's proxy pictures: upright, even sides (4:2:0), at most `longest`, never larger than the frame. */
export function proxySize(index: Pick<ClipIndex, 'width' | 'height'>, longest: PictureSide = LARGEST_SIDE): Size {
  const scale = Math.min(1, longest / Math.max(index.width, index.height));
  const even = (side: number): number => Math.max(2, 2 * Math.round((side * scale) / 2));
  return { width: even(index.width), height: even(index.height) };
}

/** How the bytes of proxy pictures of a size are to be read. */
export function proxyLayout({ width, height }: Size): PictureLayout {
  return { kind: 'proxy', width, height, matrix: 'bt709', fullRange: false };
}
