import type { ArcRefusal } from '../../geometry/fit-arc.ts';
import { FEWEST_POINTS } from '../../geometry/fit-arc.ts';
import { toSwing } from '../../geometry/point.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { PicturePoint, PlacedPoint } from '../../model/mark.ts';
import type { MeasuredReading, MissingReading, Reading, ReadingKey, ReadingNote } from '../../model/reading.ts';
import { marksAt } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import { fitUncertainArc } from './arc-of-clip.ts';
import type { ArcOff, UncertainArc } from './arc-of-clip.ts';
import { arcPlaneOf } from './arc-plane.ts';
import type { ArcPlane } from './arc-plane.ts';
import type { ArcEntry } from '../catalogue/entry.ts';
import { clubheadPathOf, inSwing, largestGuess, placesOf } from './clubhead-path.ts';
import type { PathPart } from './clubhead-path.ts';
import { estimate } from '../uncertainty/estimate.ts';
import { chooseLengthUnit } from '../camera/length-unit.ts';
import type { LengthUnit } from '../camera/length-unit.ts';
import { gatherPlaceInputs } from '../readings/place-inputs.ts';
import { valueAt } from '../uncertainty/value-at.ts';
import type { PlaceInputs } from '../readings/place-inputs.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { missing } from '../readings/missing.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import { readSpeed } from './read-speed.ts';
import type { ClipContext } from '../readings/read-placed.ts';
import { arcDepthOf } from './arc-depth.ts';

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
  const arcOf = (part: PathPart): UncertainArc | ArcRefusal | null => {
    if (path === null) return null;
    const places = placesOf(path, part, clip);
    const { sigma, freedom } = placingSigma(placing, clip.height, 'clubhead', false, largestGuess(places));
    const incline = plane?.quantity.value ?? Math.PI / 2;
    const depth = arcDepthOf(context, part, incline);
    const upright = (tilt: number, off: readonly number[]) => {
      const look = depth.look(off);
      return inSwing(places, (place) => look(straighten(place)), { side, tilt });
    };
    const { loose } = depth;
    return fitUncertainArc(
      part,
      { places, upright, sigma, freedom, loose },
      context.plumb?.quantity.value ?? 0,
      incline,
    );
  };
  return { ...context, plane, arcs: { impact: arcOf('impact'), address: arcOf('address') } };
}

/** Makes one reading of the clubhead's arc, or says what it lacks. Impact must be named on the clip. */
export function readArc(entry: ArcEntry, key: ReadingKey, context: ArcContext): Reading {
  const inputs = gatherPlaceInputs(context.clip, context.side, context.placing, (checkpoint) =>
    marksAt(context.clip, checkpoint),
  );
  const arcs = new Map<PathPart, { readonly of: UncertainArc; readonly slot: number }>();
  for (const part of entry.parts) {
    const of = context.arcs[part];
    if (of === null || typeof of === 'string') return withoutArc(key, part, of);
    arcs.set(part, { of, slot: addArc(inputs, of) });
  }
  const ball = entry.ball ? ballOf(context) : null;
  if (entry.ball && ball === null)
    return missing(key, 'points-missing', { points: [{ point: 'ball', checkpoint: 'address' }] });
  if (ball !== null) inputs.addPoint('ball', ball);
  const frame = addFrame(inputs, context, [...arcs.values()]);
  const unit = chooseLengthUnit(
    inputs,
    context.scaleOf('ball'),
    'shoulder-width',
    marksAt(context.clip, 'address'),
    null,
    context.stand,
  );

  const formula = (values: readonly number[]): number | null => {
    const places = inputs.view(values, 'impact');
    const factor = unit.factor(values, places);
    const found = entry.compute({
      arc: (part) => {
        const arc = arcs.get(part);
        if (arc === undefined) throw new Error(`catalogue: ${key.id} does not list the part ${part}`);
        return arc.of.at(values, arc.slot, frame.by(values, arc.of));
      },
      ball: () => {
        if (ball === null) throw new Error(`catalogue: ${key.id} does not list the ball`);
        return upright(places.pictureOf('ball', ball), frame.by(values, arcs.get('impact')?.of));
      },
    });
    return factor === null || found === null ? null : found * factor;
  };
  const depth = arcDepthOf(context, 'impact', context.plane?.quantity.value ?? Math.PI / 2);
  const upright = (at: PicturePoint, { tilt, loose }: ArcOff): SwingPoint => {
    const straight = context.lens === null ? at : context.lens.at([])(at);
    const stance = { side: context.side, tilt: (context.plumb?.quantity.value ?? 0) + tilt };
    return toSwing(depth.look(loose)(straight), stance);
  };
  const result = estimate(formula, inputs, {
    kind: 'number',
    ...(entry.range === null ? {} : { range: entry.range }),
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

/** The speed along the arc round impact, or why there is none. */
export function readArcSpeed(key: ReadingKey, context: ArcContext): Reading {
  const arc = context.arcs.impact;
  return arc === null || typeof arc === 'string' ? withoutArc(key, 'impact', arc) : readSpeed(key, context, arc);
}

function addArc(inputs: PlaceInputs, arc: UncertainArc): number {
  const [first, ...rest] = arc.quantities;
  if (first === undefined) throw new Error('arc: it has no inputs');
  const slot = inputs.add(first);
  for (const quantity of rest) inputs.add(quantity);
  return slot;
}

/** The vertical and the plane of the arc as inputs, where they are known; each told as how far it is off. */
function addFrame(
  inputs: PlaceInputs,
  { plumb, plane, stand }: ArcContext,
  arcs: readonly { readonly of: UncertainArc }[],
) {
  const slotOf = (of: ArcPlane | ClipContext['plumb']) =>
    of === null ? null : inputs.add({ ...of.quantity, value: 0 });
  const roll: Quantity = { name: 'camera roll', value: 0, u: stand.errors.roll, source: 'camera', shared: 'day' };
  const [tilt, incline] = [plumb === null ? inputs.add(roll) : slotOf(plumb), slotOf(plane)];
  // The same inputs as those of the scale, where it has them: they are listed once.
  const looseOf = new Map(
    arcs.map(({ of }) => [of, of.loose.map((quantity) => ({ slot: inputs.add(quantity), value: quantity.value }))]),
  );
  return {
    by: (values: readonly number[], arc: UncertainArc | undefined): ArcOff => ({
      tilt: tilt === null ? 0 : valueAt(values, tilt),
      incline: incline === null ? 0 : valueAt(values, incline),
      loose: (arc === undefined ? [] : (looseOf.get(arc) ?? [])).map(
        ({ slot, value }) => valueAt(values, slot) - value,
      ),
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
  const { hidden, guessed, assumed: others } = inputs.remarks();
  if (assumed || others || unit.unit === 'cm') notes.push('placing-assumed');
  if (hidden) notes.push('hidden-point');
  const path = clubheadPathOf(context.clip);
  const isFollowed = path !== null && largestGuess(placesOf(path, 'impact', context.clip)) > 0;
  if (guessed || isFollowed) notes.push('proposed-point');
  if (context.plumb === null) notes.push('no-plumb');
  if (unit.unit === 'px') notes.push('uncalibrated');
  if (unit.unit === 'cm') notes.push(unit.isOffPlane ? 'off-known-length-plane' : 'known-length-plane');
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
