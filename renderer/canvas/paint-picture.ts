import type { ViewTransform } from './view-transform.ts';

/** From this zoom on the picture's own pixels are shown as squares; below it they are smoothed. */
const SQUARES_FROM = 3;

/**
 * Paints a frame on its canvas so that picture coordinates land where the view puts them, on whole device pixels of any
 * pixel ratio. `picture` may have fewer pixels than `width` x `height` (a scrub picture): it is stretched to the same place.
 */
export function paintPicture(
  canvas: HTMLCanvasElement,
  picture: ImageBitmap | null,
  width: number,
  height: number,
  view: ViewTransform,
): void {
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) return;
  const ratio = canvas.width / Math.max(1, canvas.clientWidth);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = '#0d0f10';
  context.fillRect(0, 0, canvas.width, canvas.height);
  if (picture === null) return;
  context.setTransform(ratio * view.zoom, 0, 0, ratio * view.zoom, ratio * view.panLeft, ratio * view.panTop);
  context.imageSmoothingEnabled = view.zoom * ratio < SQUARES_FROM;
  // A scrub picture is on its way past: painting it carefully would take longer than decoding it.
  context.imageSmoothingQuality = picture.width < width ? 'low' : 'high';
  context.drawImage(picture, 0, 0, width, height);
}
