import { say } from '../model/say.ts';
import type { PathShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { dottedLine, lastOf, shifted } from './places.ts';

/** Taken as a whole; its places belong to the frames of its clip. */
export const path = {
  label: say`Path`,
  isForMeasure: false,
  // The letter of what it does: track.
  tool: {
    key: 't',
    icon: {
      line: '',
      dashed: 'M3 4c0 8 5 11 12 10',
      dots: [
        [3, 4],
        [6.5, 11],
        [15, 14],
      ],
    },
  },
  handles: () => [],
  moved: (shape, _, by) => ({ ...shape, places: shape.places.map((place) => ({ ...place, ...shifted(place, by) })) }),
  figures: ({ places }) => dottedLine(places),
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: ({ subject }) => subject,
  copied: () => null,
} as const satisfies ShapeKindOf<PathShape>;
