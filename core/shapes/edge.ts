import { say } from '../model/say.ts';
import type { EdgeShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { dottedLine, handlesAt, lastOf, movedIf, nameOfPlace } from './places.ts';

const NEXT = say`Click the next place along the same edge. Backspace goes back one, Esc cancels.`;

export const edge = {
  label: say`Straight edge`,
  isForMeasure: true,
  // The letter of what it does: rule along an edge.
  tool: {
    key: 'u',
    icon: { line: 'M2.5 14.5C6 8.5 10.5 5 15.5 3.5', dashed: 'M2.5 14.5 15.5 3.5' },
    short: say`Edge`,
    hints: [
      say`Click three or more spots along something you know is straight, such as a wall edge.`,
      NEXT,
      NEXT,
      say`Click more places along the edge, or end it with Enter. Backspace goes back one, Esc cancels.`,
    ],
  },
  // Two places are straight by themselves.
  clicked: { fewest: 3, through: (places, id) => ({ kind: 'edge', id, places, carried: true }) },
  handles: ({ places }) => handlesAt(places),
  moved: (shape, handle, by) => ({
    ...shape,
    places: shape.places.map((place, at) => movedIf(place, nameOfPlace(at), handle, by)),
  }),
  figures: ({ places }) => dottedLine(places),
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: () => say`straight edge`,
  copied: () => null,
} as const satisfies ShapeKindOf<EdgeShape>;
