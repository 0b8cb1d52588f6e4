import type { Affine } from '../../core/compare/lay-over.ts';
import { GRID_FROM, gridEdges } from './pixel-grid.ts';
import type { Size, ViewTransform } from './view-transform.ts';

/** What lies round a picture. */
const SURROUND = '#0d0f10';
/** From this zoom on the picture's own pixels are shown as squares; below it they are smoothed. */
const SQUARES_FROM = 3;
/** Seen on black and on white, and too weak to be taken for a line that somebody drew. */
const GRID_COLOUR = 'rgba(128, 128, 128, 0.5)';

export interface PaintedPicture {
  /** Of the picture's pixels, as the clip has them; null: it is still coming. */
  readonly picture: ImageBitmap | null;
  readonly width: number;
  readonly height: number;
  readonly view: ViewTransform;
  /** How the picture lies on another one, in whose pixels `view` is; round it the canvas is clear. Left out: by itself. */
  readonly laid?: Affine;
  /** What stands in its place while it is coming, a colour. */
  readonly stand: string;
}

/**
 * Paints a frame on its canvas so that picture coordinates land where the view puts them, on whole device pixels of any
 * pixel ratio; large pixels are squares with a thin grid between them. `picture` may have fewer pixels than `width` x
 * `height` (a proxy picture): it is stretched to the same place.
 */
export function paintPicture(canvas: HTMLCanvasElement, painted: PaintedPicture): void {
  const { picture, width, height, view, laid, stand } = painted;
  const context = canvas.getContext('2d', { alpha: laid !== undefined });
  if (context === null) return;
  const ratio = canvas.width / Math.max(1, canvas.clientWidth);
  context.setTransform(1, 0, 0, 1, 0, 0);
  if (laid === undefined) {
    context.fillStyle = SURROUND;
    context.fillRect(0, 0, canvas.width, canvas.height);
  } else context.clearRect(0, 0, canvas.width, canvas.height);
  const zoom = ratio * view.zoom;
  context.setTransform(zoom, 0, 0, zoom, ratio * view.panLeft, ratio * view.panTop);
  if (laid !== undefined) context.transform(laid.a, laid.b, laid.c, laid.d, laid.e, laid.f);
  if (picture === null) {
    context.fillStyle = stand;
    context.fillRect(0, 0, width, height);
    return;
  }
  const grown = zoom * (laid === undefined ? 1 : Math.hypot(laid.a, laid.b));
  context.imageSmoothingEnabled = grown < SQUARES_FROM;
  // A proxy picture is on its way past: painting it carefully would take longer than decoding it.
  context.imageSmoothingQuality = picture.width < width ? 'low' : 'high';
  context.drawImage(picture, 0, 0, width, height);
  // The pixels of a proxy picture are not those of the clip.
  if (laid === undefined && view.zoom >= GRID_FROM && picture.width >= width)
    paintGrid(context, ratio, { width, height }, view);
}

function paintGrid(context: CanvasRenderingContext2D, ratio: number, picture: Size, view: ViewTransform): void {
  const room = context.canvas;
  const [zoom, panLeft, panTop] = [view.zoom * ratio, view.panLeft * ratio, view.panTop * ratio];
  const left = Math.max(0, Math.round(panLeft));
  const top = Math.max(0, Math.round(panTop));
  const right = Math.min(room.width, Math.round(panLeft + picture.width * zoom) + 1);
  const bottom = Math.min(room.height, Math.round(panTop + picture.height * zoom) + 1);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = GRID_COLOUR;
  for (const edge of gridEdges(zoom, panLeft, picture.width, room.width)) context.fillRect(edge, top, 1, bottom - top);
  for (const edge of gridEdges(zoom, panTop, picture.height, room.height))
    context.fillRect(left, edge, right - left, 1);
}
