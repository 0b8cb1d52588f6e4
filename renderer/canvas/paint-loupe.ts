import type { PicturePoint } from '../../core/model/mark.ts';
import type { Box } from '../../core/painting/box.ts';
import type { DrawItem } from '../../core/painting/draw-item.ts';
import { paint } from '../../core/painting/paint.ts';
import { filterOf, pictureLight } from '../bench/state/picture-light.ts';
import type { Size } from './view-transform.ts';

/** CSS pixels, without the border. Odd, so that the cross in the middle lies on whole device pixels. */
const LOUPE_SIZE = 133;
/** The picture whose lines the size of what is shown is counted in. */
const USUAL_LINES = 1080;
/** Below so many device pixels a picture pixel is smoothed, above it is a square. */
const SQUARES_FROM = 3;
const CROSS_GAP = 7;
const CROSS_ARM = 26;

/** What is there to enlarge; null: no picture. */
export interface LoupeContent {
  readonly picture: ImageBitmap | null;
  readonly marks: readonly DrawItem[];
}

/**
 * Paints the picture around a place, in the light of the bench and large enough to see its pixels, with what is drawn
 * there and a thin cross on the place.
 */
export function paintLoupe(
  canvas: HTMLCanvasElement,
  at: PicturePoint,
  size: Size,
  { picture, marks }: LoupeContent,
  lines: number,
): void {
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) return;
  const ratio = window.devicePixelRatio;
  const side = Math.round(LOUPE_SIZE * ratio);
  if (canvas.width !== side) canvas.width = canvas.height = side;
  const scale = enlargement(size, lines) * ratio;
  const corner = { x: at.x - side / scale / 2, y: at.y - side / scale / 2 };
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = '#0d0f10';
  context.fillRect(0, 0, side, side);
  if (picture === null || picture.width === 0) return;
  context.setTransform(scale, 0, 0, scale, -corner.x * scale, -corner.y * scale);
  context.imageSmoothingEnabled = scale < SQUARES_FROM;
  // Here the light is painted: what is drawn over the picture keeps its colours.
  context.filter = filterOf(pictureLight.get()) || 'none';
  const visible = { ...corner, width: side / scale, height: side / scale };
  drawPart(context, picture, size, visible);
  context.filter = 'none';
  const unlabelled = marks.filter(({ kind }) => kind !== 'label');
  paint(context, unlabelled, { scale, unit: ratio, visible });
  paintCross(context, side / 2, ratio);
  canvas.dataset['x'] = String(at.x);
  canvas.dataset['y'] = String(at.y);
  canvas.dataset['scale'] = String(scale);
}

/** CSS pixels a picture pixel, where so many lines of a picture 1080 lines high fill the view, or as large a part of others. */
export function enlargement({ height }: Size, lines: number): number {
  return LOUPE_SIZE / ((lines * height) / USUAL_LINES);
}

/**
 * Draws of a bitmap, that holds the whole picture at whatever size, no more than what shows: whole pixels of its own, so
 * that they lie where they would if all were drawn.
 */
function drawPart(context: CanvasRenderingContext2D, bitmap: ImageBitmap, size: Size, visible: Box): void {
  const [across, down] = [bitmap.width / size.width, bitmap.height / size.height];
  const left = Math.max(0, Math.floor(visible.x * across));
  const top = Math.max(0, Math.floor(visible.y * down));
  const width = Math.min(bitmap.width, Math.ceil((visible.x + visible.width) * across)) - left;
  const height = Math.min(bitmap.height, Math.ceil((visible.y + visible.height) * down)) - top;
  if (width <= 0 || height <= 0) return;
  const on = [left / across, top / down, width / across, height / down] as const;
  context.drawImage(bitmap, left, top, width, height, ...on);
}

/** Open in the middle: the pixel itself stays in sight. */
function paintCross(context: CanvasRenderingContext2D, middle: number, ratio: number): void {
  context.setTransform(1, 0, 0, 1, middle, middle);
  context.beginPath();
  for (const [x, y] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    context.moveTo(x * CROSS_GAP * ratio, y * CROSS_GAP * ratio);
    context.lineTo(x * CROSS_ARM * ratio, y * CROSS_ARM * ratio);
  }
  for (const [colour, width] of [
    ['#000000', 3],
    ['#f7f7f2', 1],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width * ratio;
    context.stroke();
  }
}
