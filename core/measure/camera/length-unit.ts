import { distance } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { BoxShape, FrameMarks } from '../../model/mark.ts';
import type { Unit } from '../../model/reading.ts';
import type { BodyLength, Places } from '../catalogue/entry.ts';
import type { Plane } from '../../model/mark.ts';
import type { Scale } from './calibration.ts';
import type { CameraStand } from './stand.ts';
import { valueAt } from '../uncertainty/value-at.ts';
import type { PlaceInputs } from '../readings/place-inputs.ts';

const UNIT_OF: Readonly<Record<BodyLength, Unit>> = {
  'head-box': '% head box',
  'shoulder-width': '% shoulder width',
  'leg-length': '% leg length',
  club: 'club lengths',
};

/** Points at address that a length is taken from. */
const POINTS_OF: Readonly<Record<BodyLength, readonly BodyPointId[]>> = {
  'head-box': [],
  'shoulder-width': ['lead-shoulder', 'trail-shoulder'],
  'leg-length': ['trail-hip', 'trail-knee', 'trail-ankle'],
  club: ['grip-end', 'clubhead'],
};

/** How a length in pixels is stated. */
export interface LengthUnit {
  readonly unit: Unit;
  /** Ids of the shapes that give the unit. */
  readonly shapeIds: readonly string[];
  /** What is read lies in another plane than every known length. */
  readonly isOffPlane: boolean;
  /** The known length is so short in the picture that its centimetres say nothing. */
  readonly isUnsure: boolean;
  /** What one pixel is in the unit, from the inputs; null when the reference has no length. */
  readonly factor: (values: readonly number[], places: Places) => number | null;
}

/** Where the camera stands and in which plane the known lengths lie that are used. */
export interface PlaneSeen {
  readonly stand: CameraStand;
  readonly plane: Plane;
}

/**
 * What a known length of another depth measures at the ankles' depth: D / (D - d). What depth does to the points themselves
 * is with the points.
 */
function planeFactor(inputs: PlaceInputs, { stand, plane }: PlaneSeen): (values: readonly number[]) => number {
  const distance = stand.quantities[stand.distanceAt];
  if (distance === undefined) throw new Error('length unit: the stand has no distance');
  const far = inputs.add(distance);
  const depths = stand.planeDepth(plane).map((depth) => inputs.add(depth));
  return (values) => {
    const near = depths.reduce((sum, depth) => sum + valueAt(values, depth), 0);
    return valueAt(values, far) / (valueAt(values, far) - near);
  };
}

/**
 * Chooses the unit of a length and adds what it depends on to the inputs: centimetres with a known length, else per cent
 * of the reference length at address where that is placed, else pixels. `stand`: that of the points, where they have depths.
 */
export function chooseLengthUnit(
  inputs: PlaceInputs,
  scale: Scale | null,
  reference: BodyLength | null,
  address: FrameMarks | null,
  box: BoxShape | null,
  stand: CameraStand | null,
): LengthUnit {
  if (scale !== null) {
    const slot = inputs.add(scale.quantity);
    const offPlane = (): ((values: readonly number[]) => number) => {
      // Where known length and camera are is the same in all swings of a day.
      const off = { name: `off the plane of the ${scale.plane}`, value: 1, u: scale.depthU };
      const depth = inputs.add({ ...off, source: 'depth', shared: 'day' });
      return (values) => valueAt(values, depth);
    };
    const plane = stand === null ? offPlane() : planeFactor(inputs, { stand, plane: scale.plane });
    const factor = (values: readonly number[]) => valueAt(values, slot) * plane(values);
    return { unit: 'cm', shapeIds: scale.shapeIds, isOffPlane: scale.isOffPlane, isUnsure: scale.isUnsure, factor };
  }
  if (reference !== null && isPlaced(reference, address, box)) {
    if (reference === 'head-box' && box !== null) inputs.addHeadBox(box);
    for (const point of POINTS_OF[reference]) inputs.addPoint(point, 'address');
    const factor = (_: readonly number[], places: Places) => {
      const length = bodyLength(reference, places);
      return length > 0 ? (reference === 'club' ? 1 : 100) / length : null;
    };
    const shapeIds = reference === 'head-box' && box !== null ? [box.id] : [];
    return { unit: UNIT_OF[reference], shapeIds, isOffPlane: false, isUnsure: false, factor };
  }
  return { unit: 'px', shapeIds: [], isOffPlane: false, isUnsure: false, factor: () => 1 };
}

function isPlaced(reference: BodyLength, address: FrameMarks | null, box: BoxShape | null): boolean {
  if (reference === 'head-box') return box !== null && box.width > 0;
  return POINTS_OF[reference].every((point) => address?.points[point] !== undefined);
}

function bodyLength(reference: BodyLength, { address, headBox }: Places): number {
  switch (reference) {
    case 'head-box':
      return 2 * headBox().halfAlong;
    case 'shoulder-width':
      return distance(address('lead-shoulder'), address('trail-shoulder'));
    case 'club':
      return distance(address('grip-end'), address('clubhead'));
    case 'leg-length':
      return (
        distance(address('trail-hip'), address('trail-knee')) + distance(address('trail-knee'), address('trail-ankle'))
      );
  }
}
