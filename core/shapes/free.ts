import { say } from '../model/say.ts';
import type { FreeShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { lastOf, shifted } from './places.ts';

/** Taken as a whole. */
export const free = {
  label: say`Free line`,
  isForMeasure: false,
  // The letter of what it does: draw.
  tool: {
    key: 'd',
    icon: { line: 'M2.5 13c2-7 4.5-7 5.5-3s3 3.5 7.5-5' },
    hints: [say`Draw while you press.`],
  },
  stroke: (places, id) => (places.length < 2 ? null : { kind: 'free', id, places }),
  handles: () => [],
  moved: (shape, _, by) => ({ ...shape, places: shape.places.map((place) => shifted(place, by)) }),
  figures: ({ places }) => [{ kind: 'curve', points: places }],
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: () => '',
  copied: (shape, id, { place }) => ({ ...shape, id, places: shape.places.map(place) }),
} as const satisfies ShapeKindOf<FreeShape>;
