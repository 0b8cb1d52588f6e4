import type { EdgeShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { dottedLine, handlesAt, lastOf, movedIf, nameOfPlace } from './places.ts';

export const edge = {
  label: 'Straight edge',
  isForMeasure: true,
  handles: ({ places }) => handlesAt(places),
  moved: (shape, handle, by) => ({
    ...shape,
    places: shape.places.map((place, at) => movedIf(place, nameOfPlace(at), handle, by)),
  }),
  figures: ({ places }) => dottedLine(places),
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: () => 'straight edge',
  copied: () => null,
} as const satisfies ShapeKindOf<EdgeShape>;
