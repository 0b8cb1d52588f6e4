import { toDegrees, wrapAngle } from '../../geometry/angle.ts';
import { BODY_POINTS } from '../../model/body-points.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { FrameMarks, PlacedPoint } from '../../model/mark.ts';
import type { MeasuredReading, ReadingAspect, ReadingId, Unit } from '../../model/reading.ts';
import type { RepeatFrame } from '../../model/repeat-check.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { View } from '../../model/words.ts';
import { ASSUMED_PLACING } from '../uncertainty/placing.ts';
import { readClip } from '../readings/read-swing.ts';
import { repeatabilityOf } from './measurement-error.ts';
import type { Repeatability } from './measurement-error.ts';

export interface ReadingRepeat extends Repeatability {
  readonly id: ReadingId;
  readonly aspect: ReadingAspect;
  readonly view: View;
  readonly unit: Unit;
}

/**
 * How well each reading repeats that the points of one check give: it is made anew from the places of every round, by
 * the same formulas as ever. What is measured several times is one reading of one clip at one checkpoint; those of one
 * kind, view and unit make a table. Times are not in it, since no frame was named anew. Readings that a round leaves
 * undefined are left out. In the order in which readings are listed.
 */
export function readingRepeats(frames: readonly RepeatFrame[]): readonly ReadingRepeat[] {
  const tables = new Map<string, { readonly first: MeasuredReading; readonly rows: number[][] }>();
  for (const clipFrames of byClip(frames))
    for (const { first, row } of rowsOf(clipFrames)) {
      const name = [first.id, first.aspect, first.view, first.unit].join(' ');
      const table = tables.get(name) ?? { first, rows: [] };
      table.rows.push(row);
      tables.set(name, table);
    }
  return [...tables.values()].map(({ first: { id, aspect, view, unit }, rows }) => ({
    ...{ id, aspect, view, unit },
    ...repeatabilityOf(rows),
  }));
}

function byClip(frames: readonly RepeatFrame[]): readonly (readonly RepeatFrame[])[] {
  const ids = [...new Set(frames.map(({ clipId }) => clipId))];
  return ids.map((id) => frames.filter(({ clipId }) => clipId === id));
}

/** One row for each reading of the clip that every round gives. */
function rowsOf(frames: readonly RepeatFrame[]): { readonly first: MeasuredReading; readonly row: number[] }[] {
  const rounds = Math.min(...frames.flatMap(({ placings }) => Object.values(placings).map((places) => places.length)));
  if (rounds < 2 || rounds === Infinity) return [];
  const read = Array.from({ length: rounds }, (_, round) => readRound(frames, round));
  return (read[0] ?? []).flatMap((first) => {
    if (first.state === 'missing' || first.from.length === 0) return [];
    const row = read.map((readings) => {
      const again = readings.find(
        ({ id, aspect, checkpoint }) => id === first.id && aspect === first.aspect && checkpoint === first.checkpoint,
      );
      return again?.state === 'measured' && again.unit === first.unit ? nearTo(first, again.value) : Number.NaN;
    });
    return row.every(Number.isFinite) ? [{ first, row }] : [];
  });
}

/** An angle that went over the end of its scale between rounds lies close by on the other side. */
function nearTo(first: MeasuredReading, value: number): number {
  if (first.unit !== 'deg') return value;
  const away = ((value - first.value) * Math.PI) / 180;
  return first.value + toDegrees(wrapAngle(away));
}

function readRound(frames: readonly RepeatFrame[], round: number) {
  const [any] = frames;
  if (any === undefined) return [];
  const inOrder = frames.toSorted((a, b) => a.frame.index - b.frame.index);
  const clip: MarkedClip = {
    view: any.view,
    width: any.width,
    height: any.height,
    // Times are not read.
    timebase: { num: 1, den: 1 },
    nominalRate: null,
    captureRate: null,
    checkpoints: Object.fromEntries(
      inOrder.flatMap(({ frame, checkpoints }) => checkpoints.map((name) => [name, { ...frame, ticks: 1 }])),
    ),
    marks: inOrder.map((frame) => marksOfRound(frame, round)),
  };
  return readClip({ handedness: any.handedness, clips: [clip] }, clip, ASSUMED_PLACING, 'calibrated');
}

function marksOfRound({ frame, shapes, placings }: RepeatFrame, round: number): FrameMarks {
  const points: Partial<Record<BodyPointId, PlacedPoint>> = {};
  for (const point of BODY_POINTS) {
    const place = placings[point]?.[round];
    if (place !== undefined) points[point] = { x: place.x, y: place.y, hidden: false };
  }
  return { frame, points, shapes };
}
