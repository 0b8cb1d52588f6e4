/** `proxy`: small, soon, for the eye on its way. `sharp`: the exact frame, the only one that is measured on. */
export type PictureQuality = 'proxy' | 'sharp';

/** How the bytes of a picture are to be read, when it travels undecoded or raw. */
export interface PictureLayout {
  /**
   * `proxy`: one H.264 picture that is decoded by itself (Annex B, BT.709). `i420`: the clip's own samples, planes Y, U, V
   * without padding. `rgba`: sRGB, 4 bytes a pixel, the same bytes as a still. All upright, square pixels.
   */
  readonly kind: 'proxy' | 'i420' | 'rgba';
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** What the samples of `i420` mean. */
  readonly matrix: 'bt709' | 'bt601';
  readonly fullRange: boolean;
}

/** How many bytes a raw picture has; null for one that is coded, which has as many as it takes. */
export function rawBytes({ kind, width, height }: Pick<PictureLayout, 'kind' | 'width' | 'height'>): number | null {
  if (kind === 'rgba') return width * height * 4;
  return kind === 'i420' ? width * height + 2 * Math.ceil(width / 2) * Math.ceil(height / 2) : null;
}
