import type { Figure } from '../geometry/figure.ts';
import { goalOfAngle, goalOfLength } from '../geometry/goal-figure.ts';
import { toGround, toPicture } from '../geometry/homography.ts';
import { arcDrawingOf } from '../measure/arc/arc-drawing.ts';
import { CATALOGUE } from '../measure/catalogue/catalogue.ts';
import type { SketchPlaces } from '../measure/catalogue/sketch.ts';
import { plumbOf } from '../measure/camera/calibration.ts';
import type { Figures } from '../measure/words/figures.ts';
import { formatReading } from '../measure/words/format.ts';
import { groundOf } from '../measure/camera/ground.ts';
import { headSourceOf, likelyHead } from '../measure/readings/head-outline.ts';
import { ASSUMED_PLACING } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { arcContextOf } from '../measure/arc/read-arc.ts';
import { asSeen } from '../measure/camera/stand.ts';
import type { ArcContext } from '../measure/arc/read-arc.ts';
import { clipContextOf } from '../measure/readings/read-swing.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { WantedRange } from '../model/goals.ts';
import type { BoxShape, FrameMarks, PicturePoint } from '../model/mark.ts';
import type { MeasuredReading } from '../model/reading.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';
import { bareNumber } from '../report/headline.ts';
import type { DrawItem, PlacedItem } from './draw-item.ts';
import type { Style } from './styles.ts';
import { arcMiddle, figureItems } from './figure-items.ts';

export interface ReadingScene {
  /** The clip that it was read from, as it was read. */
  readonly clip: MarkedClip;
  /** 1 for a right-handed player, -1 for a left-handed one. */
  readonly side: 1 | -1;
  readonly look: Style;
  /** The swing's other views, which tell the incline of the clubhead's arc. */
  readonly others?: readonly MarkedClip[];
  /** By which it was read. */
  readonly placing?: PlacingErrors;
  /** How numbers are written where it is looked at; left out = each by itself. */
  readonly figures?: Figures;
  /** Large and plain, for a still: its lines as strong as drawn ones, its number without the ±. */
  readonly isPlain?: true;
}

/**
 * What a reading measures, to be drawn on the frame of its checkpoint while it is looked at: the lines its formula takes,
 * dashed, the arc of its angle, ticks at the ends of its length, and the number. Empty for times, and when a mark that it
 * was made from is no longer there.
 */
export function readingItems(reading: MeasuredReading, scene: ReadingScene): readonly DrawItem[] {
  const places = placesOf(reading, scene);
  if (places === null) return [];
  const parts = CATALOGUE[reading.id].sketch(places, reading.aspect);
  const weight = scene.isPlain === true ? 'line' : 'guide';
  const style = { look: scene.look, weight, height: scene.clip.height } as const;
  const drawn = parts.flatMap((part) => figureItems(part, style));
  const at = labelPlace(parts, drawn);
  const written = (scene.figures?.reading(reading) ?? formatReading(reading)).text;
  const text = scene.isPlain === true ? bareNumber(written) : written;
  return at === null ? drawn : [...drawn, { kind: 'label', at, text, look: scene.look, of: drawn }];
}

/**
 * Where the part that is read should be, to be drawn with it: the gap to it is the miss. Empty where the goal has no limit
 * that can be drawn there: in another unit, or of what has no angle and no length in the picture.
 */
export function goalItems(
  reading: MeasuredReading,
  { from, to, unit }: Pick<WantedRange, 'from' | 'to' | 'unit'>,
  scene: ReadingScene,
): readonly PlacedItem[] {
  const places = placesOf(reading, scene);
  if (places === null || unit !== reading.unit) return [];
  const parts = CATALOGUE[reading.id].sketch(places, reading.aspect);
  // A change is read against address: its goal is a change too, and the arm of now stands for none.
  const isAngle = unit === 'deg';
  if (isAngle && reading.aspect === 'change') return [];
  const radians = (limit: number | null): number | null => (limit === null ? null : (limit * Math.PI) / 180);
  const goal = isAngle
    ? goalOfAngle(parts, (reading.value * Math.PI) / 180, { from: radians(from), to: radians(to) })
    : goalOfLength(parts, reading.value, { from, to });
  if (goal === null) return [];
  return [
    ...(goal.wedge === null ? [] : [{ kind: 'wedge', ...goal.wedge } as const]),
    ...goal.lines.map(({ a, b }) => ({ kind: 'segment', a, b, ends: 'plain', look: 'plain', weight: 'goal' }) as const),
  ];
}

/** The number stands at the arc of an angle, else at the length, else at the first line, else at the last place. */
function labelPlace(parts: readonly Figure[], drawn: readonly PlacedItem[]): PicturePoint | null {
  const middle = arcMiddle(drawn);
  if (middle !== null) return middle;
  const part = parts.find(({ kind }) => kind === 'length') ?? parts.find(({ kind }) => kind === 'line');
  if (part?.kind !== 'length' && part?.kind !== 'line') {
    const last = parts.findLast(({ kind }) => kind === 'place');
    return last?.kind === 'place' ? last.at : null;
  }
  return { x: (part.a.x + part.b.x) / 2, y: (part.a.y + part.b.y) / 2 };
}

/** null when a point or a shape that the reading was made from is gone. */
function placesOf(reading: MeasuredReading, scene: ReadingScene): SketchPlaces | null {
  const { clip, side } = scene;
  const isThere = ({ point, checkpoint }: MeasuredReading['from'][number]): boolean =>
    marksAt(clip, checkpoint)?.points[point] !== undefined;
  const shapes = clip.marks.flatMap((marks) => marks.shapes).filter(({ id }) => reading.shapes.includes(id));
  if (!reading.from.every(isThere) || shapes.length < reading.shapes.length) return null;
  // A reading that is made from a plumb is made from all of the clip's.
  const isUpright = shapes.some((shape) => shape.kind === 'line' && (shape.role === 'plumb' || shape.role === 'level'));
  const plumb = isUpright ? plumbOf(clip, side, 1) : null;
  const up = upOf(plumb?.quantity.value ?? 0, side);
  return {
    here: (point) => placeOf(marksAt(clip, reading.checkpoint), point),
    address: (point) => placeOf(marksAt(clip, 'address'), point),
    headBox: () => {
      const box = shapes.find((shape): shape is BoxShape => shape.kind === 'box' && shape.role === 'head-box');
      if (box === undefined) throw new Error('sketch: the head box is not listed by the reading');
      return box;
    },
    head: () => {
      const [here, address] = [marksAt(clip, reading.checkpoint), marksAt(clip, 'address')];
      const source = headSourceOf(here, address);
      if (source === null) throw new Error('sketch: the head box is not listed by the reading');
      return likelyHead(source, reading.checkpoint, placeOf(address, 'head-centre'), placeOf(here, 'head-centre'));
    },
    up,
    onGround: groundWays(clip),
    along: { x: -up.y * side, y: up.x * side },
    arc: arcsOf(scene),
    ball: () => {
      const source = reading.from.find(({ point }) => point === 'ball');
      return source === undefined ? null : placeOf(marksAt(clip, source.checkpoint), 'ball');
    },
  };
}

/** The arcs as they were fitted for the reading; worked out when one is asked for, and once. */
function arcsOf({ clip, side, others = [], placing = ASSUMED_PLACING }: ReadingScene): SketchPlaces['arc'] {
  let context: ArcContext | null = null;
  return (part) => {
    const clipContext = clipContextOf(side, clip, placing, 'relative', others);
    context ??= arcContextOf({ ...clipContext, stand: asSeen(clipContext.stand) });
    return arcDrawingOf(context, part);
  };
}

function groundWays(clip: MarkedClip): SketchPlaces['onGround'] {
  // Only where a line runs is asked here, not how sure it is: any placing error gives the same map.
  const ground = groundOf(clip, 1);
  if (ground === null || 'reason' in ground) return () => null;
  const { homography } = ground.fit;
  return (from, by) => {
    const start = toGround(homography, from);
    return start === null ? null : toPicture(homography, { x: start.x + by.target, y: start.y + by.ball });
  };
}

function placeOf(marks: FrameMarks | null, point: BodyPointId): PicturePoint {
  const placed = marks?.points[point];
  if (placed === undefined) throw new Error(`sketch: ${point} is not listed by the reading`);
  return { x: placed.x, y: placed.y };
}

/** True vertical upward in the picture, for a lean toward +along in radians. */
function upOf(lean: number, side: 1 | -1): PicturePoint {
  return { x: side * Math.sin(lean), y: -Math.cos(lean) };
}
