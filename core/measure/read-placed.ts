import { toDegrees } from '../geometry/angle.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { BoxShape, FrameMarks } from '../model/mark.ts';
import type { MeasuredReading, MissingReading, Reading, ReadingKey, ReadingNote, Unit } from '../model/reading.ts';
import { marksAt } from '../model/swing.ts';
import type { MarkedClip } from '../model/swing.ts';
import type { Checkpoint } from '../model/words.ts';
import type { Calibration } from './calibration.ts';
import type { PlacedEntry } from './catalogue-entry.ts';
import { NEARLY_FREE_ANGLE, estimate } from './estimate.ts';
import type { Estimate } from './estimate.ts';
import { chooseLengthUnit } from './length-unit.ts';
import type { LengthUnit } from './length-unit.ts';
import { gatherPlaceInputs } from './place-inputs.ts';
import type { PlacingErrors } from './placing.ts';

/** What all readings of one clip share. */
export interface ClipContext {
  readonly clip: MarkedClip;
  readonly side: 1 | -1;
  readonly placing: PlacingErrors;
  readonly plumb: Calibration | null;
  readonly yardstick: Calibration | null;
}

/** Makes one reading from body points, or says what it lacks. `key.checkpoint` must be named on the clip. */
export function readPlaced(entry: PlacedEntry, key: ReadingKey, context: ClipContext): Reading {
  const { clip } = context;
  const here = marksAt(clip, key.checkpoint);
  const address = marksAt(clip, 'address');
  const box = headBoxOf(address);
  const missing = findMissing(entry, key, clip, here, address, box);
  if (missing !== null) return missing;

  const inputs = gatherPlaceInputs(clip, context.side, context.placing, (checkpoint) => marksAt(clip, checkpoint));
  for (const { point, checkpoint } of pointsNeeded(entry, key)) inputs.addPoint(point, checkpoint);
  if (entry.headBox && box !== null) inputs.addHeadBox(box);
  if (entry.upright && context.plumb !== null) inputs.addPlumb(context.plumb.quantity);
  const unit =
    entry.quantity === 'length' ? chooseLengthUnit(inputs, context.yardstick, entry.reference, address, box) : null;

  const formula = (values: readonly number[]): number | null => {
    const places = inputs.view(values, key.checkpoint);
    const value = entry.compute(places);
    if (value === null) return null;
    if (key.aspect === 'change') {
      const before = entry.compute(inputs.view(values, 'address'));
      return before === null ? null : value - before;
    }
    if (unit === null) return value;
    const factor = unit.factor(values, places);
    return factor === null ? null : value * factor;
  };
  const result = estimate(formula, inputs, {
    kind: entry.quantity === 'angle' ? 'angle' : 'number',
    edges: entry.edges,
    ...(entry.range !== null && key.aspect === 'value' ? { range: entry.range } : {}),
  });
  if (result === null) return { ...key, state: 'missing', reason: 'same-place', needs: NOTHING };

  const shapes = [
    entry.headBox ? (box?.id ?? null) : null,
    entry.upright ? (context.plumb?.shapeId ?? null) : null,
    unit?.shapeId ?? null,
  ].filter((id) => id !== null);
  return {
    ...key,
    state: 'measured',
    ...stated(entry, unit, result),
    from: inputs.from,
    shapes: [...new Set(shapes)],
    notes: notesOf(entry, key, context, unit, result, inputs.remarks()),
  };
}

const NOTHING = { points: [], checkpoints: [], headBox: false } as const;

/** Points with the checkpoint whose frame they must lie on. A change needs the same points at address too. */
function pointsNeeded(
  entry: PlacedEntry,
  key: ReadingKey,
): readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[] {
  const atAddress = key.aspect === 'change' ? [...entry.points.address, ...entry.points.here] : entry.points.address;
  return [
    ...entry.points.here.map((point) => ({ point, checkpoint: key.checkpoint })),
    ...atAddress.map((point) => ({ point, checkpoint: 'address' as const })),
  ];
}

function findMissing(
  entry: PlacedEntry,
  key: ReadingKey,
  clip: MarkedClip,
  here: FrameMarks | null,
  address: FrameMarks | null,
  box: BoxShape | null,
): MissingReading | null {
  const needed = pointsNeeded(entry, key);
  const needsAddress = entry.headBox || needed.some(({ checkpoint }) => checkpoint === 'address');
  const named = clip.checkpoints;
  const checkpoints = [key.checkpoint, ...(needsAddress ? (['address'] as const) : [])].filter(
    (checkpoint) => named[checkpoint] === undefined,
  );
  const points = needed.filter(({ point, checkpoint }) => {
    const marks = checkpoint === key.checkpoint ? here : address;
    return marks?.points[point] === undefined;
  });
  const needs = { points, checkpoints, headBox: entry.headBox && box === null };
  const lacks = (reason: MissingReading['reason']): MissingReading => ({ ...key, state: 'missing', reason, needs });
  if (checkpoints.length > 0) return lacks('checkpoint-not-named');
  if (needsAddress && key.checkpoint !== 'address' && !inOrder(clip, ['address', key.checkpoint]))
    return lacks('wrong-order');
  if (needs.headBox) return lacks('shape-missing');
  if (points.length > 0) return lacks('points-missing');
  return null;
}

/** Whether the named frames come strictly one after the other in the clip. */
export function inOrder(clip: MarkedClip, checkpoints: readonly Checkpoint[]): boolean {
  const indexes = checkpoints.map((checkpoint) => clip.checkpoints[checkpoint]?.index ?? Number.NaN);
  return indexes.every((index, place) => place === 0 || index > (indexes[place - 1] ?? Number.NaN));
}

function headBoxOf(address: FrameMarks | null): BoxShape | null {
  for (const shape of address?.shapes ?? []) if (shape.kind === 'box' && shape.role === 'head-box') return shape;
  return null;
}

function stated(
  entry: PlacedEntry,
  unit: LengthUnit | null,
  { value, u, interval, method }: Estimate,
): Pick<MeasuredReading, 'value' | 'unit' | 'u' | 'interval' | 'method'> {
  if (entry.quantity !== 'angle') return { value, u, interval, method, unit: unit?.unit ?? ('ratio' satisfies Unit) };
  const degrees = [toDegrees(interval[0]), toDegrees(interval[1])] as const;
  return { value: toDegrees(value), u: toDegrees(u), interval: degrees, method, unit: 'deg' };
}

function notesOf(
  entry: PlacedEntry,
  key: ReadingKey,
  context: ClipContext,
  unit: LengthUnit | null,
  result: Estimate,
  remarks: { readonly assumed: boolean; readonly hidden: boolean },
): readonly ReadingNote[] {
  const notes: ReadingNote[] = [];
  if (remarks.assumed || unit?.unit === 'cm') notes.push('placing-assumed');
  if (remarks.hidden) notes.push('hidden-point');
  // A roll of the camera drops out of a change of an angle.
  if (entry.upright && context.plumb === null && key.aspect === 'value') notes.push('no-plumb');
  if (unit?.unit === 'px') notes.push('uncalibrated');
  if (unit?.unit === 'cm') notes.push('yardstick-plane');
  if (entry.quantity === 'angle' && result.u > NEARLY_FREE_ANGLE) notes.push('short-line');
  return notes;
}
