import { BODY_POINTS, BODY_POINT_INFO, type BodyPointId } from '../model/body-points.ts';
import type { FrameMarks, PicturePoint } from '../model/mark.ts';
import { kindOf } from '../shapes/shapes.ts';
import type { DrawItem, Inked, PlacedItem } from './draw-item.ts';
import type { Style } from './styles.ts';
import { arcMiddle, figureItems, inkOf } from './figure-items.ts';
import { STICKS, type StickId } from './sticks.ts';

export type { DrawItem } from './draw-item.ts';

/** The texts beside the marks. Numbers come as finished texts with unit and ±. */
export interface LabelTexts {
  /** Whether each body point carries its name. Default: no. */
  readonly pointNames?: boolean;
  /** Shape id -> text. Shapes that are not named here carry none. */
  readonly shapes?: Readonly<Partial<Record<string, string>>>;
  /** Line between body points -> text. */
  readonly sticks?: Readonly<Partial<Record<StickId, string>>>;
}

export interface DrawOptions {
  readonly look: Style;
  /** Size of the picture in pixels, >= 1. */
  readonly width: number;
  readonly height: number;
  readonly labels?: LabelTexts;
  /** Ids of shapes that are kept with another frame and only show on this one: drawn thinner. */
  readonly quiet?: ReadonlySet<string>;
}

/**
 * What is drawn for everything marked on one frame, from back to front: lines between body points, shapes, points,
 * labels. Points that stand alone give no line. Marks outside the picture are kept; the painter's clip cuts them.
 */
export function drawListOf(marks: FrameMarks, options: DrawOptions): readonly DrawItem[] {
  const { look, labels = {} } = options;
  const lines: PlacedItem[] = [];
  const texts: DrawItem[] = [];
  const label = (at: PicturePoint, text: string | undefined, of: readonly PlacedItem[], ink: Inked = { look }) => {
    if (text !== undefined && text !== '') texts.push({ kind: 'label', at, text, ...ink, of });
  };

  for (const stick of STICKS) {
    const a = placeOf(marks, stick.from);
    const b = placeOf(marks, stick.to);
    if (a === null || b === null) continue;
    const line: PlacedItem = { kind: 'segment', a, b, look, weight: 'stick', ends: 'points' };
    lines.push(line);
    label(middleOf(a, b), labels.sticks?.[stick.id], [line]);
  }

  for (const shape of marks.shapes) {
    const isQuiet = options.quiet?.has(shape.id) === true;
    const kind = kindOf(shape);
    const weight = isQuiet || kind.isForMeasure ? 'stick' : 'line';
    const ink = inkOf({ ...shape, look });
    const items = kind
      .figures(shape)
      .flatMap((figure) => figureItems(figure, { ...ink, weight, height: options.height }));
    lines.push(...items);
    if ((isQuiet && kind.isForMeasure) || shape.unlabelled === true) continue;
    label(arcMiddle(items) ?? kind.labelAt(shape), labels.shapes?.[shape.id], items, ink);
  }

  const points: PlacedItem[] = [];
  for (const id of BODY_POINTS) {
    const point = marks.points[id];
    if (point === undefined) continue;
    const at = { x: point.x, y: point.y };
    const ring: PlacedItem = { kind: 'point', at, look, hidden: point.hidden };
    points.push(ring);
    if (labels.pointNames === true) label(at, BODY_POINT_INFO[id].label, [ring]);
  }
  return [...lines, ...points, ...texts];
}

function placeOf(marks: FrameMarks, id: BodyPointId): PicturePoint | null {
  const point = marks.points[id];
  return point === undefined ? null : { x: point.x, y: point.y };
}

function middleOf(a: PicturePoint, b: PicturePoint): PicturePoint {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}
