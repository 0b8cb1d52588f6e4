import type { PathShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { dottedLine, lastOf, shifted } from './places.ts';

/** Taken as a whole; its places belong to the frames of its clip. */
export const path = {
  label: 'Path',
  isForMeasure: false,
  handles: () => [],
  moved: (shape, _, by) => ({ ...shape, places: shape.places.map(({ pts, ...at }) => ({ ...shifted(at, by), pts })) }),
  figures: ({ places }) => dottedLine(places),
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: ({ subject }) => subject,
  copied: () => null,
} as const satisfies ShapeKindOf<PathShape>;
