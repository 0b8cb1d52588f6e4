import type { PicturePoint } from '../model/mark.ts';
import type { Box } from './box.ts';
import type { PaintContext } from './context.ts';
import type {
  DrawItem,
  Inked,
  LabelItem,
  LineWeight,
  PlaceItem,
  PlacedItem,
  PointItem,
  WedgeItem,
  WordsItem,
} from './draw-item.ts';
import { boundsOf, isNear } from './item-bounds.ts';
import { placeLabels, pushedInside } from './label-places.ts';
import type { LabelMemory } from './label-places.ts';
import { lineSamples } from './line-samples.ts';
import { visiblePlace } from './visible-place.ts';
import {
  GOAL_COLOUR,
  GOAL_FILL,
  colourOf,
  STYLE_DASHES,
  TONE_COLOURS,
  OUTLINE_COLOUR,
  PLATE_COLOUR,
  fontOf,
} from './styles.ts';

/** How the picture lies on the target; the context's transform maps picture coordinates to target pixels already. */
export interface PaintView {
  /** Target pixels a picture pixel, > 0. */
  readonly scale: number;
  /** Target pixels a stroke unit, > 0: the screen's pixel ratio, more on large stills. Default 1. */
  readonly unit?: number;
  /** Height of label text in target pixels. Default 13 stroke units. */
  readonly textSize?: number;
  /** The part of the picture that shows, in picture coordinates: nothing else is painted or named, and labels stay inside it. */
  readonly visible?: Box;
  /** Places that texts should not cover, as the body of the player, in picture coordinates. */
  readonly keepFree?: readonly PicturePoint[];
  /**
   * Where texts lay at the last paint in this view. Those that are here stay; the others find a place beside them and are
   * added. Who lets go of it lets all texts find their places anew.
   */
  readonly labels?: LabelMemory;
}

/** All in stroke units. */
const LINE_WIDTHS: Readonly<Record<LineWeight, number>> = { line: 2.25, stick: 1.4, guide: 1.6, goal: 3 };
/** By how much a line that the coach wants thinner or thicker is so. */
const THICKNESS_TIMES: Readonly<Record<NonNullable<Inked['thickness']>, number>> = { thin: 0.6, thick: 1.8 };
/** Next to no length, which round caps make dots of. */
const GOAL_DOTS: readonly number[] = [0.1, 8];
const GUIDE_DASH: readonly number[] = [4, 4];
const OUTLINE = 1.25;
const TICK = 7;
/** Length of each side of an arrow's head, and its angle to the shaft in radians. */
const HEAD = { length: 13, angle: 0.45 } as const;
/** A body point is a small dot: what lies under it is what it is placed on. */
const POINT_RADIUS = 2.5;
/** A hidden one is hollow and dotted, so that it differs without colour. */
const HIDDEN = { radius: 4, width: 1.5, dash: [2.1, 2.09] } as const;
/** Lines that join body points stop this far from them. */
const POINT_FREE = 5;
const DOT_RADIUS = 1.5;
const DOT_OUTLINE = 1;
const TEXT_SIZE = 13;
const LABEL_GAP = 9.5;
/** A text farther off than this, in gaps, has a hair line to what it names. */
const FAR_LABEL = 3.5;
const HAIR = { line: 0.7, edge: 0.45 } as const;
/** Space around a label's text, as parts of the text size. */
const PLATE_PAD = { x: 0.35, y: 0.16 } as const;
/** From the middle of a line of text down to its baseline, as a part of the size: half the height of its figures. */
const BASELINE = 0.33;
/** How far from its own bounds an item is painted at most, or keeps a label away: bars across ends, rings, the gap. */
const FARTHEST =
  Math.max(TICK, HEAD.length, HIDDEN.radius, LABEL_GAP) +
  (Math.max(...Object.values(LINE_WIDTHS)) * Math.max(...Object.values(THICKNESS_TIMES))) / 2 +
  OUTLINE;
const FULL_TURN = 2 * Math.PI;

/** Paints a draw list, back to front. Leaves the context as it was found, except for the current path. */
export function paint(ctx: PaintContext, all: readonly DrawItem[], view: PaintView): void {
  const unit = (view.unit ?? 1) / view.scale;
  const items = shownOf(all, view.visible, FARTHEST * unit);
  ctx.save();
  ctx.lineJoin = 'round';
  for (const item of items) if (item.kind === 'wedge') paintWedge(ctx, item);
  for (const item of items) {
    if (item.kind === 'point') paintPoint(ctx, item, unit);
    else if (item.kind === 'place') paintDot(ctx, item.at, item, DOT_RADIUS * unit, unit);
    else if (item.kind !== 'label' && item.kind !== 'wedge' && item.kind !== 'words') {
      tracePath(ctx, item, unit);
      const isGoal = item.weight === 'goal';
      const dash = item.weight === 'guide' ? GUIDE_DASH : isGoal ? GOAL_DOTS : STYLE_DASHES[item.look];
      const colour = isGoal ? GOAL_COLOUR : colourOf(item);
      strokeTwice(ctx, colour, LINE_WIDTHS[item.weight] * timesOf(item) * unit, unit, dash);
    }
  }
  paintLabels(ctx, items, view);
  ctx.restore();
}

function timesOf({ thickness }: Inked): number {
  return thickness === undefined ? 1 : THICKNESS_TIMES[thickness];
}

/** Items that lie in what is visible or reach into it; labels of what shows, at a place of it that does. */
function shownOf(items: readonly DrawItem[], visible: Box | undefined, margin: number): readonly DrawItem[] {
  if (visible === undefined) return items;
  return items.flatMap((item) => {
    if (item.kind !== 'label') return isNear(boundsOf(item), visible, margin) ? item : [];
    const at = visiblePlace(item.at, item.of, visible);
    return at === null ? [] : { ...item, at };
  });
}

function tracePath(
  ctx: PaintContext,
  item: Exclude<PlacedItem, PointItem | PlaceItem | WedgeItem | WordsItem>,
  unit: number,
): void {
  ctx.beginPath();
  switch (item.kind) {
    case 'segment':
      traceLine(ctx, item.ends === 'points' ? shortened(item.a, item.b, POINT_FREE * unit) : [item.a, item.b]);
      if (item.ends === 'ticks') for (const tick of ticksOf(item.a, item.b, TICK * unit)) traceLine(ctx, tick);
      if (item.ends === 'arrow') traceLine(ctx, headOf(item.a, item.b, HEAD.length * unit));
      break;
    case 'polyline':
      traceLine(ctx, item.points);
      break;
    case 'box':
      ctx.rect(item.x, item.y, item.width, item.height);
      break;
    case 'circle':
      ctx.arc(item.centre.x, item.centre.y, item.radius, 0, FULL_TURN);
      break;
    case 'arc':
      ctx.arc(item.centre.x, item.centre.y, item.radius, item.start, item.end);
      break;
  }
}

function traceLine(ctx: PaintContext, points: readonly PicturePoint[]): void {
  for (const [index, point] of points.entries()) {
    if (index === 0) ctx.moveTo(point.x, point.y);
    else ctx.lineTo(point.x, point.y);
  }
}

/** A line without its first and last `length`, so that what it joins stays free; nothing of a very short line. */
function shortened(a: PicturePoint, b: PicturePoint, length: number): readonly PicturePoint[] {
  const whole = Math.hypot(b.x - a.x, b.y - a.y);
  if (whole <= 2 * length) return [];
  const step = { x: ((b.x - a.x) / whole) * length, y: ((b.y - a.y) / whole) * length };
  return [
    { x: a.x + step.x, y: a.y + step.y },
    { x: b.x - step.x, y: b.y - step.y },
  ];
}

/** Both sides of an arrow's head, through its tip; of an arrow that is shorter than its head, as long as that. */
function headOf(a: PicturePoint, b: PicturePoint, length: number): readonly PicturePoint[] {
  const whole = Math.hypot(b.x - a.x, b.y - a.y);
  if (whole === 0) return [];
  const back = Math.atan2(a.y - b.y, a.x - b.x);
  const side = Math.min(length, whole);
  const end = (angle: number): PicturePoint => ({ x: b.x + side * Math.cos(angle), y: b.y + side * Math.sin(angle) });
  return [end(back - HEAD.angle), b, end(back + HEAD.angle)];
}

/** A bar of `length` each way across both ends of a line; none on a line without length. */
function ticksOf(a: PicturePoint, b: PicturePoint, length: number): readonly (readonly PicturePoint[])[] {
  const whole = Math.hypot(b.x - a.x, b.y - a.y);
  if (whole === 0) return [];
  const across = { x: (-(b.y - a.y) / whole) * length, y: ((b.x - a.x) / whole) * length };
  return [a, b].map((end) => [
    { x: end.x - across.x, y: end.y - across.y },
    { x: end.x + across.x, y: end.y + across.y },
  ]);
}

/** Under all lines, without an edge: what is on target is a range and no thing. */
function paintWedge(ctx: PaintContext, { centre, radius, start, end }: WedgeItem): void {
  ctx.beginPath();
  ctx.moveTo(centre.x, centre.y);
  ctx.arc(centre.x, centre.y, radius, start, end);
  ctx.closePath();
  ctx.fillStyle = GOAL_FILL;
  ctx.fill();
}

/** Strokes the current path: the whole of it dark and wider (of dots each), then in its colour, dashed where that is wanted. */
function strokeTwice(ctx: PaintContext, colour: string, width: number, unit: number, dash: readonly number[]): void {
  const areDots = dash === GOAL_DOTS;
  const parts = dash.map((part) => part * unit);
  ctx.lineCap = 'round';
  // A dark line under dots would be the line that is seen.
  ctx.setLineDash(areDots ? parts : []);
  ctx.strokeStyle = OUTLINE_COLOUR;
  ctx.lineWidth = width + 2 * OUTLINE * unit;
  ctx.stroke();
  ctx.lineCap = dash.length === 0 || areDots ? 'round' : 'butt';
  ctx.setLineDash(parts);
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.stroke();
}

/** Strokes the current path so thin that nobody takes it for a mark. */
function strokeHair(ctx: PaintContext, ink: Inked, unit: number): void {
  ctx.setLineDash([]);
  for (const [width, colour] of [
    [HAIR.line + 2 * HAIR.edge, OUTLINE_COLOUR],
    [HAIR.line, colourOf(ink)],
  ] as const) {
    ctx.strokeStyle = colour;
    ctx.lineWidth = width * unit;
    ctx.stroke();
  }
}

function paintPoint(ctx: PaintContext, item: PointItem, unit: number): void {
  if (!item.hidden) return void paintDot(ctx, item.at, item, POINT_RADIUS * unit, unit);
  ctx.beginPath();
  ctx.arc(item.at.x, item.at.y, HIDDEN.radius * unit, 0, FULL_TURN);
  strokeTwice(ctx, colourOf(item), HIDDEN.width * unit, unit, HIDDEN.dash);
}

function paintDot(ctx: PaintContext, at: PicturePoint, ink: Inked, size: number, unit: number): void {
  for (const [radius, colour] of [
    [size + DOT_OUTLINE * unit, OUTLINE_COLOUR],
    [size, colourOf(ink)],
  ] as const) {
    ctx.beginPath();
    ctx.arc(at.x, at.y, radius, 0, FULL_TURN);
    ctx.fillStyle = colour;
    ctx.fill();
  }
}

/** Texts are set in target pixels, so that a type face is never asked for at a fraction of a pixel and blown up. */
function paintLabels(ctx: PaintContext, items: readonly DrawItem[], view: PaintView): void {
  const labels = items.filter((item) => item.kind === 'label');
  const words = items.filter((item) => item.kind === 'words');
  if (labels.length === 0 && words.length === 0) return;
  const { scale } = view;
  const unit = view.unit ?? 1;
  const size = view.textSize ?? TEXT_SIZE * unit;
  const onTarget = (at: PicturePoint) => ({ x: at.x * scale, y: at.y * scale });

  ctx.save();
  ctx.scale(1 / scale, 1 / scale);
  ctx.font = fontOf(size, 600);
  ctx.textAlign = 'center';
  ctx.textBaseline = 'alphabetic';
  const keyOf = ({ text, at }: LabelItem): string => `${String(at.x)} ${String(at.y)} ${text}`;
  const sizeOf = (text: string) => ({
    width: ctx.measureText(text).width + 2 * PLATE_PAD.x * size,
    height: size * (1 + 2 * PLATE_PAD.y),
  });
  const plate = (box: Box, { text, colour }: { readonly text: string; readonly colour: string }): void => {
    ctx.fillStyle = PLATE_COLOUR;
    ctx.fillRect(box.x, box.y, box.width, box.height);
    ctx.fillStyle = colour;
    ctx.fillText(text, box.x + box.width / 2, box.y + box.height / 2 + BASELINE * size);
  };
  const wordBoxes = words.map(({ at, text }) => {
    const { x, y } = onTarget(at);
    const { width, height } = sizeOf(text);
    return pushedInside({ x: x - width / 2, y: y - height / 2, width, height }, targetBox(view));
  });
  const known = labels.map((label) => view.labels?.get(keyOf(label)) ?? null);
  const wanted = labels
    .filter((_, index) => known[index] === null)
    .map((label) => ({
      at: onTarget(label.at),
      ...sizeOf(label.text),
    }));
  const gap = LABEL_GAP * unit;
  const drawn = {
    texts: [...wordBoxes, ...known.filter((box) => box !== null)],
    points: [...items.filter((item) => item.kind === 'point').map(({ at }) => at), ...(view.keepFree ?? [])].map(
      onTarget,
    ),
    lines: wanted.length === 0 ? [] : lineSamples(items, gap / scale).map(onTarget),
  };
  const placed = placeLabels(wanted, drawn, targetBox(view), gap).values();
  view.labels?.clear();
  for (const [index, label] of labels.entries()) {
    const box = known[index] ?? placed.next().value;
    if (box === undefined) continue;
    view.labels?.set(keyOf(label), box);
    const end = nearestOf(box, onTarget(label.at));
    if (end.away > FAR_LABEL * gap) {
      ctx.beginPath();
      traceLine(ctx, [onTarget(label.at), end.at]);
      strokeHair(ctx, label, unit);
    }
    plate(box, { text: label.text, colour: label.tone === undefined ? colourOf(label) : TONE_COLOURS[label.tone] });
  }
  for (const [index, item] of words.entries()) {
    const box = wordBoxes[index];
    if (box !== undefined) plate(box, { text: item.text, colour: colourOf(item) });
  }
  ctx.restore();
}

/** The place of a box that lies nearest to `at`, and how far that is. */
function nearestOf(box: Box, { x, y }: PicturePoint): { readonly at: PicturePoint; readonly away: number } {
  const at = {
    x: Math.max(box.x, Math.min(x, box.x + box.width)),
    y: Math.max(box.y, Math.min(y, box.y + box.height)),
  };
  return { at, away: Math.hypot(at.x - x, at.y - y) };
}

function targetBox(view: PaintView): Box | null {
  if (view.visible === undefined) return null;
  const { x, y, width, height } = view.visible;
  const s = view.scale;
  return { x: x * s, y: y * s, width: width * s, height: height * s };
}
