import type { FreeShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { lastOf, shifted } from './places.ts';

/** Taken as a whole. */
export const free = {
  label: 'Free line',
  isForMeasure: false,
  handles: () => [],
  moved: (shape, _, by) => ({ ...shape, places: shape.places.map((place) => shifted(place, by)) }),
  figures: ({ places }) => [{ kind: 'curve', points: places }],
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: () => '',
  copied: (shape, id, { place }) => ({ ...shape, id, places: shape.places.map(place) }),
} as const satisfies ShapeKindOf<FreeShape>;
