import type { ArcRefusal } from '../../geometry/fit-arc.ts';
import { FEWEST_POINTS } from '../../geometry/fit-arc.ts';
import { toSwing } from '../../geometry/point.ts';
import type { PlacedPoint } from '../../model/mark.ts';
import type { MeasuredReading, MissingReading, Reading, ReadingKey, ReadingNote } from '../../model/reading.ts';
import { marksAt } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import { fitUncertainArc } from './arc-of-clip.ts';
import type { UncertainArc } from './arc-of-clip.ts';
import { arcPlaneOf } from './arc-plane.ts';
import type { ArcPlane } from './arc-plane.ts';
import type { ArcEntry } from '../catalogue/entry.ts';
import { clubheadPathOf, inSwing, placesOf } from './clubhead-path.ts';
import type { PathPart } from './clubhead-path.ts';
import { estimate } from '../uncertainty/estimate.ts';
import { chooseLengthUnit } from '../camera/length-unit.ts';
import type { LengthUnit } from '../camera/length-unit.ts';
import { gatherPlaceInputs, valueAt } from '../readings/place-inputs.ts';
import type { PlaceInputs } from '../readings/place-inputs.ts';
import { missing } from '../readings/missing.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import { readSpeed } from './read-speed.ts';
import type { ClipContext } from '../readings/read-placed.ts';

/** What all readings of a clip's arcs share: it is worked out once for a clip. */
export interface ArcContext extends ClipContext {
  readonly plane: ArcPlane | null;
  readonly arcs: Readonly<Record<PathPart, UncertainArc | ArcRefusal | null>>;
}

/** Fits both arcs of a clip, where there is a path. */
export function arcContextOf(context: ClipContext): ArcContext {
  const { clip, side, placing, lens } = context;
  const downTheLine = context.others.find(({ view }) => view === 'down-the-line');
  const plane = downTheLine === undefined ? null : arcPlaneOf(downTheLine, side, placing);
  const path = clubheadPathOf(clip);
  const straighten = lens === null ? (at: PlacedPoint | { x: number; y: number }) => at : lens.at([]);
  const { sigma, freedom } = placingSigma(placing, clip.height, 'clubhead', false);
  const arcOf = (part: PathPart): UncertainArc | ArcRefusal | null => {
    if (path === null) return null;
    const places = placesOf(path, part, clip);
    const upright = (tilt: number) => inSwing(places, straighten, { side, tilt });
    const incline = plane?.quantity.value ?? Math.PI / 2;
    return fitUncertainArc(part, { places, upright, sigma, freedom }, context.plumb?.quantity.value ?? 0, incline);
  };
  return { ...context, plane, arcs: { impact: arcOf('impact'), address: arcOf('address') } };
}

/** Makes one reading of the clubhead's arc, or says what it lacks. Impact must be named on the clip. */
export function readArc(entry: ArcEntry, key: ReadingKey, context: ArcContext): Reading {
  const parts: readonly PathPart[] = entry.of === 'centre-shift' ? ['impact', 'address'] : ['impact'];
  for (const part of parts) {
    const arc = context.arcs[part];
    if (arc === null || typeof arc === 'string') return withoutArc(key, part, arc);
  }
  const arc = context.arcs.impact;
  if (arc === null || typeof arc === 'string') return withoutArc(key, 'impact', arc);
  if (entry.of === 'speed') return readSpeed(key, context, arc);

  const inputs = gatherPlaceInputs(context.clip, context.side, context.placing, (checkpoint) =>
    marksAt(context.clip, checkpoint),
  );
  const first = addArc(inputs, arc);
  const { address } = context.arcs;
  const second = entry.of === 'centre-shift' && address !== null && typeof address !== 'string' ? address : null;
  const secondFirst = second === null ? 0 : addArc(inputs, second);
  const ball = entry.of === 'low-point' ? ballOf(context) : null;
  if (entry.of === 'low-point' && ball === null)
    return missing(key, 'points-missing', { points: [{ point: 'ball', checkpoint: 'address' }] });
  if (ball !== null) inputs.addPoint('ball', ball);
  const frame = addFrame(inputs, context);
  const unit = chooseLengthUnit(
    inputs,
    context.scaleOf('ball'),
    'shoulder-width',
    marksAt(context.clip, 'address'),
    null,
  );

  const formula = (values: readonly number[]): number | null => {
    const by = frame.by(values);
    const now = arc.at(values, first, by);
    const places = inputs.view(values, 'impact');
    const factor = unit.factor(values, places);
    if (factor === null) return null;
    switch (entry.of) {
      case 'radius':
        return now.radius * factor;
      case 'centre-shift':
        return second === null ? null : (now.centre.along - second.at(values, secondFirst, by).centre.along) * factor;
      case 'low-point':
        return ball === null ? null : (now.centre.along - ballAlong(places.pictureOf('ball', ball), by.tilt)) * factor;
      default:
        return null;
    }
  };
  const ballAlong = (at: { readonly x: number; readonly y: number }, tilt: number): number => {
    const straight = context.lens === null ? at : context.lens.at([])(at);
    return toSwing(straight, { side: context.side, tilt: (context.plumb?.quantity.value ?? 0) + tilt }).along;
  };
  const result = estimate(formula, inputs, {
    kind: 'number',
    ...(entry.of === 'radius' ? { range: [0, Infinity] as const } : {}),
  });
  if (result === null) return missing(key, 'same-place');
  const path = clubheadPathOf(context.clip);
  const shapes = [
    ...(path === null ? [] : [path.id]),
    ...(context.plumb?.shapeIds ?? []),
    ...(context.lens?.shapeIds ?? []),
    ...unit.shapeIds,
  ];
  return {
    ...key,
    state: 'measured',
    ...result,
    unit: unit.unit,
    from: inputs.from,
    shapes: [...new Set(shapes)],
    notes: notesOf(context, unit, inputs),
  } satisfies MeasuredReading;
}

function addArc(inputs: PlaceInputs, arc: UncertainArc): number {
  const [first, ...rest] = arc.quantities;
  if (first === undefined) throw new Error('arc: it has no inputs');
  const slot = inputs.add(first);
  for (const quantity of rest) inputs.add(quantity);
  return slot;
}

/** The vertical and the plane of the arc as inputs, where they are known; each told as how far it is off. */
function addFrame(inputs: PlaceInputs, { plumb, plane }: ArcContext) {
  const slotOf = (of: ArcPlane | ClipContext['plumb']) =>
    of === null ? null : inputs.add({ ...of.quantity, value: 0 });
  const [tilt, incline] = [slotOf(plumb), slotOf(plane)];
  return {
    by: (values: readonly number[]) => ({
      tilt: tilt === null ? 0 : valueAt(values, tilt),
      incline: incline === null ? 0 : valueAt(values, incline),
    }),
  };
}

/** The ball rests where it lies until it is struck: at impact where it was placed there, else at address. */
function ballOf({ clip }: ClipContext): Checkpoint | null {
  for (const checkpoint of ['impact', 'address'] as const)
    if (marksAt(clip, checkpoint)?.points.ball !== undefined) return checkpoint;
  return null;
}

function notesOf(
  context: ArcContext,
  unit: Pick<LengthUnit, 'unit' | 'isOffPlane' | 'isUnsure'>,
  inputs: PlaceInputs,
): readonly ReadingNote[] {
  const notes: ReadingNote[] = [];
  const { assumed } = placingSigma(context.placing, context.clip.height, 'clubhead', false);
  const { hidden, assumed: others } = inputs.remarks();
  if (assumed || others || unit.unit === 'cm') notes.push('placing-assumed');
  if (hidden) notes.push('hidden-point');
  if (context.plumb === null) notes.push('no-plumb');
  if (unit.unit === 'px') notes.push('uncalibrated');
  if (unit.unit === 'cm') notes.push(unit.isOffPlane ? 'off-yardstick-plane' : 'yardstick-plane');
  if (context.lens !== null) notes.push('lens-straightened');
  if (context.plane === null) notes.push('no-plane');
  if (context.plane?.by === 'shaft') notes.push('plane-from-shaft');
  if (unit.isUnsure) notes.push('scale-unsure');
  return notes;
}

const REFUSALS: Readonly<Record<ArcRefusal, MissingReading['reason']>> = {
  'too-few-points': 'path-missing',
  'no-arc': 'arc-too-short',
  'too-short-arc': 'arc-too-short',
  'opens-down': 'no-low-point',
  'low-point-too-far': 'no-low-point',
};

function withoutArc(key: ReadingKey, part: PathPart, refusal: ArcRefusal | null): MissingReading {
  const reason = refusal === null ? 'path-missing' : REFUSALS[refusal];
  return missing(key, reason, { path: { frames: FEWEST_POINTS, round: part } });
}
