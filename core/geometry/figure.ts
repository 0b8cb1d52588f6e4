import type { PicturePoint } from '../model/mark.ts';

/** One thing to draw, as plain geometry in picture coordinates. How it looks is core/painting's. */
export type Figure =
  | { readonly kind: 'line'; readonly a: PicturePoint; readonly b: PicturePoint }
  /** A line with a tick across each end: a length that is read or known. */
  | { readonly kind: 'length'; readonly a: PicturePoint; readonly b: PicturePoint }
  /** The arc between the directions from the vertex to a and to b. */
  | { readonly kind: 'angle'; readonly vertex: PicturePoint; readonly a: PicturePoint; readonly b: PicturePoint }
  | {
      readonly kind: 'box';
      readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
    }
  | { readonly kind: 'circle'; readonly centre: PicturePoint; readonly radius: number }
  /** A line with a head at b. */
  | { readonly kind: 'arrow'; readonly a: PicturePoint; readonly b: PicturePoint }
  /** Words with their middle at a place; how large they are is no part of the picture. */
  | { readonly kind: 'words'; readonly at: PicturePoint; readonly words: string }
  /** A line through all places: a drawn one, or a fitted arc as places close to one another. */
  | { readonly kind: 'curve'; readonly points: readonly PicturePoint[] }
  /** A dot. Of a reading: a place that has no mark of its own on the frame that is shown, one of address, or a fitted one. */
  | { readonly kind: 'place'; readonly at: PicturePoint };
