import type { PicturePoint } from '../model/mark.ts';
import type { Box } from '../painting/box.ts';
import type { PaintContext } from '../painting/context.ts';
import type { DrawItem } from '../painting/draw-item.ts';
import { paint } from '../painting/paint.ts';
import { SHEET_COLOURS, type DrawPicture } from '../painting/paint-sheet.ts';
import type { PlacedText } from '../painting/placed.ts';
import { fontOf, PLATE_COLOUR, STYLE_COLOURS, type Style } from '../painting/styles.ts';
import { FILM_SIZES, type FilmShape } from '../talk/film-plan.ts';
import { FILM_TEXT, type Plate } from './film-texts.ts';
import type { PanePlace } from './pane-places.ts';

/** Round the pictures: neutral and dark, so that no colour of a picture looks other than it is. */
const STAGE_COLOUR = '#1B1D1F';

/** The ring round the pointer, in stroke units: a wide faint one below a narrower clear one, with no hard edge. */
const RING_RADIUS = 22;
const RING_STROKES = [
  { width: 13, colour: 'rgba(0, 0, 0, 0.14)' },
  { width: 9, colour: 'rgba(0, 0, 0, 0.18)' },
  { width: 5.5, colour: 'rgba(255, 255, 255, 0.35)' },
  { width: 3, colour: 'rgba(255, 255, 255, 0.75)' },
] as const;

/** One picture of a video, without the clips' own pictures. */
export interface FilmPicture {
  readonly places: readonly (PanePlace & {
    readonly marks: readonly DrawItem[];
    readonly title: Plate;
    readonly look: Style;
  })[];
  /** In the coordinates of a place's picture. */
  readonly pointer: { readonly place: number; readonly at: PicturePoint } | null;
  readonly caption: Plate | null;
}

/** The clips' pictures on the stage. `pictures` in the order of the places. */
export function paintPictures(
  ctx: PaintContext,
  shape: FilmShape,
  places: readonly Pick<PanePlace, 'source' | 'target'>[],
  pictures: readonly DrawPicture[],
): void {
  const { width, height } = FILM_SIZES[shape];
  ctx.fillStyle = STAGE_COLOUR;
  ctx.fillRect(0, 0, width, height);
  for (const [index, { source, target }] of places.entries()) pictures[index]?.(source, target);
}

/** All that lies over the clips' pictures. */
export function paintOver(ctx: PaintContext, shape: FilmShape, picture: FilmPicture): void {
  const { unit, label } = FILM_TEXT[shape];
  for (const [index, { room, source, target, scale, marks, title, look }] of picture.places.entries()) {
    ctx.save();
    clipTo(ctx, target);
    ctx.translate(target.x, target.y);
    ctx.scale(scale, scale);
    ctx.translate(-source.x, -source.y);
    paint(ctx, marks, { scale, unit, textSize: label, visible: source });
    if (picture.pointer?.place === index) paintPointer(ctx, picture.pointer.at, unit / scale);
    ctx.restore();
    ctx.save();
    clipTo(ctx, room);
    paintPlate(ctx, title, look);
    ctx.restore();
  }
  if (picture.caption !== null) paintPlate(ctx, picture.caption, 'plain');
}

/** The closing card. */
export function paintCard(ctx: PaintContext, shape: FilmShape, texts: readonly PlacedText[]): void {
  const { width, height } = FILM_SIZES[shape];
  ctx.fillStyle = SHEET_COLOURS.ground;
  ctx.fillRect(0, 0, width, height);
  ctx.textBaseline = 'alphabetic';
  for (const text of texts) {
    ctx.font = fontOf(text.size, text.weight);
    ctx.textAlign = text.align;
    ctx.fillStyle = SHEET_COLOURS[text.tone];
    ctx.fillText(text.text, text.x, text.baseline);
  }
}

function clipTo(ctx: PaintContext, box: Box): void {
  ctx.beginPath();
  ctx.rect(box.x, box.y, box.width, box.height);
  ctx.clip();
}

function paintPointer(ctx: PaintContext, at: PicturePoint, unit: number): void {
  ctx.setLineDash([]);
  for (const { width, colour } of RING_STROKES) {
    ctx.beginPath();
    ctx.arc(at.x, at.y, RING_RADIUS * unit, 0, 2 * Math.PI);
    ctx.strokeStyle = colour;
    ctx.lineWidth = width * unit;
    ctx.stroke();
  }
}

function paintPlate(ctx: PaintContext, { box, lines, size }: Plate, look: Style): void {
  ctx.fillStyle = PLATE_COLOUR;
  ctx.fillRect(box.x, box.y, box.width, box.height);
  ctx.font = fontOf(size, 600);
  ctx.textAlign = 'center';
  ctx.textBaseline = 'alphabetic';
  ctx.fillStyle = STYLE_COLOURS[look];
  for (const { text, x, baseline } of lines) ctx.fillText(text, x, baseline);
}
