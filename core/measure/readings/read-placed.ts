import type { BodyPointId } from '../../model/body-points.ts';
import type { BoxShape, FrameMarks, Plane } from '../../model/mark.ts';
import type { MeasuredReading, MissingReading, Reading, ReadingKey, ReadingNote, Unit } from '../../model/reading.ts';
import { marksAt } from '../../model/swing.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import type { Calibration, Scale } from '../camera/calibration.ts';
import type { PlacedEntry } from '../catalogue/entry.ts';
import { outOfOrder } from './checkpoint-order.ts';
import { NEARLY_FREE_ANGLE, estimate, inDegrees } from '../uncertainty/estimate.ts';
import type { Estimate } from '../uncertainty/estimate.ts';
import { estimateWay } from '../uncertainty/estimate-way.ts';
import type { Way } from '../uncertainty/estimate-way.ts';
import type { GroundMap, GroundRefusal } from '../camera/ground.ts';
import { boxOf, headSourceOf } from './head-outline.ts';
import type { HeadSource } from './head-outline.ts';
import type { ClipLens } from '../camera/lens-of-clip.ts';
import { chooseLengthUnit } from '../camera/length-unit.ts';
import type { LengthUnit } from '../camera/length-unit.ts';
import { missing } from './missing.ts';
import { gatherPlaceInputs } from './place-inputs.ts';
import type { PlaceInputs } from './place-inputs.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import type { CameraStand } from '../camera/stand.ts';
import { wrapAngle } from '../../geometry/angle.ts';

/** What all readings of one clip share. */
export interface ClipContext {
  readonly clip: MarkedClip;
  readonly side: 1 | -1;
  readonly placing: PlacingErrors;
  readonly plumb: Calibration | null;
  /** The scale for what lies in a plane, or null where lengths are not in cm. */
  readonly scaleOf: (plane: Plane) => Scale | null;
  readonly ground: GroundMap | GroundRefusal | null;
  /** The ground marks lie as for a player of the other hand: they were mixed up. */
  readonly isGroundMixedUp: boolean;
  readonly lens: ClipLens | null;
  readonly stand: CameraStand;
  /** The other views of the swing. */
  readonly others: readonly MarkedClip[];
}

/** Makes one reading from body points, or says what it lacks. `key.checkpoint` must be named on the clip. */
export function readPlaced(entry: PlacedEntry, key: ReadingKey, context: ClipContext): Reading {
  const { clip } = context;
  const here = marksAt(clip, key.checkpoint);
  const address = marksAt(clip, 'address');
  const box = boxOf(address, 'head-box');
  const head = entry.head ? headSourceOf(here, address) : null;
  const lacking = findMissing(entry, key, clip, here, address, box);
  // Before any point is asked for: without ground marks it would be placed in vain.
  if (entry.ground && mapOf(context.ground) === null && lacking?.reason !== 'checkpoint-not-named')
    return missing(key, 'ground-missing', { ground: true });
  if (lacking !== null) return lacking;
  if (entry.ground && context.isGroundMixedUp) return missing(key, 'ground-mixed-up', { ground: true });

  const inputs = gatherPlaceInputs(clip, context.side, context.placing, (checkpoint) => marksAt(clip, checkpoint));
  // The ground is known whichever way the camera looks.
  const stand = entry.ground ? null : context.stand;
  if (stand !== null) inputs.addStand(stand);
  for (const { point, checkpoint } of pointsNeeded(entry, key)) inputs.addPoint(point, checkpoint);
  if (entry.headBox && box !== null) inputs.addHeadBox(box);
  if (head !== null) inputs.addHead(head, key.checkpoint);
  if (entry.upright) inputs.addPlumb(context.plumb?.quantity ?? unmarkedRoll(context.stand));
  const ground = entry.ground ? mapOf(context.ground) : null;
  if (ground !== null) inputs.addGround(ground);
  const { lens } = context;
  if (lens !== null) inputs.addLens(lens);
  const unit = unitOf(entry, inputs, context, stand, address, box);

  const read = (values: readonly number[], asSeen: boolean): number | null => {
    const places = inputs.view(values, key.checkpoint, asSeen);
    const value = entry.compute(places);
    if (value === null) return null;
    if (key.aspect === 'change') {
      const before = entry.compute(inputs.view(values, 'address', asSeen));
      return before === null ? null : value - before;
    }
    if (unit === null) return value;
    const factor = unit.factor(values, places);
    return factor === null ? null : value * factor;
  };
  // What the marks say of the camera corrects the value. What is only assumed of it never does: it is in the ±.
  const start = inputs.quantities.map((quantity) => quantity.value);
  const asSeen = read(start, true);
  if (asSeen === null) return missing(key, entry.ground ? 'over-horizon' : 'same-place');
  const looked = stand === null || stand.isTold ? null : read(start, false);
  const bias = looked === null ? 0 : wrapped(entry, looked - asSeen);
  const formula = (values: readonly number[]): number | null => {
    const value = read(values, false);
    return value === null ? null : value - bias;
  };
  const wayOf = (values: readonly number[]): Way | null => {
    const way = entry.way?.(inputs.view(values, key.checkpoint)) ?? null;
    if (way === null || entry.quantity === 'angle') return way;
    return { x: way.x / MM_PER_CM, y: way.y / MM_PER_CM };
  };
  const byNumber = () =>
    estimate(
      formula,
      { quantities: inputs.quantities, products: inputs.turned() },
      {
        bias: Math.abs(bias),
        kind: entry.quantity === 'angle' ? 'angle' : 'number',
        edges: entry.edges,
        ...(entry.range !== null && key.aspect === 'value' ? { range: entry.range } : {}),
      },
    );
  const result =
    entry.way === undefined
      ? byNumber()
      : estimateWay(wayOf, inputs, entry.quantity === 'angle' ? 'direction' : 'length');
  if (result === null) return missing(key, entry.ground ? 'over-horizon' : 'same-place');

  const shapes = [
    ...(entry.headBox && box !== null ? [box.id] : []),
    ...(head === null ? [] : [head.shape.id]),
    ...(entry.upright ? (context.plumb?.shapeIds ?? []) : []),
    ...(ground === null ? [] : [ground.shape.id]),
    ...(lens?.shapeIds ?? []),
    ...(unit?.shapeIds ?? []),
  ];
  return {
    ...key,
    state: 'measured',
    ...stated(entry, unit, result),
    from: inputs.from,
    shapes: [...new Set(shapes)],
    notes: [...headNotes(head), ...notesOf(entry, key, context, unit, result, inputs.remarks())],
  };
}

/** Without a plumb the picture's own vertical, as sure as a camera is set up by eye. */
function unmarkedRoll({ errors }: CameraStand): Quantity {
  return { name: 'camera roll', value: 0, u: errors.roll, source: 'camera', shared: 'day' };
}

function wrapped({ quantity }: PlacedEntry, difference: number): number {
  return quantity === 'angle' ? wrapAngle(difference) : difference;
}

function mapOf(ground: ClipContext['ground']): GroundMap | null {
  return ground !== null && 'quantities' in ground ? ground : null;
}

const MM_PER_CM = 10;

/** null for what is no length. */
function unitOf(
  entry: PlacedEntry,
  inputs: PlaceInputs,
  { scaleOf }: ClipContext,
  stand: CameraStand | null,
  address: FrameMarks | null,
  box: BoxShape | null,
): LengthUnit | null {
  if (entry.quantity !== 'length') return null;
  if (entry.ground)
    return { unit: 'cm', shapeIds: [], isOffPlane: false, isUnsure: false, factor: () => 1 / MM_PER_CM };
  return chooseLengthUnit(inputs, scaleOf(entry.plane), entry.reference, address, box, stand);
}

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
  const lacks = (reason: MissingReading['reason']): MissingReading => missing(key, reason, needs);
  if (checkpoints.length > 0) return lacks('checkpoint-not-named');
  const crossed = needsAddress && key.checkpoint !== 'address' ? outOfOrder(clip, ['address', key.checkpoint]) : null;
  if (crossed !== null) return missing(key, 'wrong-order', { ...needs, checkpoints: crossed });
  if (needs.headBox) return lacks('shape-missing');
  if (points.length > 0) return lacks('points-missing');
  return null;
}

function stated(
  entry: PlacedEntry,
  unit: LengthUnit | null,
  estimated: Estimate,
): Estimate & Pick<MeasuredReading, 'unit'> {
  if (entry.quantity !== 'angle') return { ...estimated, unit: unit?.unit ?? ('ratio' satisfies Unit) };
  return { ...inDegrees(estimated), unit: 'deg' };
}

function headNotes(head: HeadSource | null): readonly ReadingNote[] {
  if (head === null || head.kind === 'here') return [];
  return [head.kind === 'box' ? 'head-size-assumed' : 'head-turn-assumed'];
}

function notesOf(
  entry: PlacedEntry,
  key: ReadingKey,
  context: ClipContext,
  unit: LengthUnit | null,
  result: Estimate,
  remarks: ReturnType<PlaceInputs['remarks']>,
): readonly ReadingNote[] {
  const notes: ReadingNote[] = [];
  if (remarks.assumed || (unit?.unit === 'cm' && !entry.ground)) notes.push('placing-assumed');
  if (remarks.hidden) notes.push('hidden-point');
  if (remarks.guessed) notes.push('proposed-point');
  // A roll of the camera drops out of a change of an angle.
  if (entry.upright && context.plumb === null && key.aspect === 'value') notes.push('no-plumb');
  if (context.lens !== null) notes.push('lens-straightened');
  if (unit?.unit === 'px') notes.push('uncalibrated');
  if (unit?.unit === 'cm' && !entry.ground)
    notes.push(unit.isOffPlane ? 'off-known-length-plane' : 'known-length-plane');
  if (entry.quantity === 'angle' && result.u > NEARLY_FREE_ANGLE) notes.push('short-line');
  if (unit?.isUnsure === true) notes.push('scale-unsure');
  return notes;
}
