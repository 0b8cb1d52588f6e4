import { say } from '../model/say.ts';
import type { ArrowShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { apart, middleOf, movedIf, SMALLEST_SHAPE } from './places.ts';

/** Points at something; measures nothing. */
export const arrow = {
  label: say`Arrow`,
  isForMeasure: false,
  tool: {
    key: 'w',
    icon: { line: 'M3 15 15 3M8.5 3H15v6.5' },
    hints: [
      say`Drag from the tail to what it points at, or click both.`,
      say`Click what it points at, or let go there.`,
    ],
  },
  drawn: {
    places: 2,
    through([a, b], id) {
      return a === undefined || b === undefined || apart(a, b) < SMALLEST_SHAPE ? null : { kind: 'arrow', id, a, b };
    },
  },
  handles: ({ a, b }) => [
    { name: 'a', at: a },
    { name: 'b', at: b },
  ],
  moved: (shape, handle, by) => ({
    ...shape,
    a: movedIf(shape.a, 'a', handle, by),
    b: movedIf(shape.b, 'b', handle, by),
  }),
  figures: ({ a, b }) => [{ kind: 'arrow', a, b }],
  labelAt: ({ a, b }) => middleOf(a, b),
  numbers: () => [],
  text: () => '',
  copied: (shape, id, { place }) => ({ ...shape, id, a: place(shape.a), b: place(shape.b) }),
} as const satisfies ShapeKindOf<ArrowShape>;
