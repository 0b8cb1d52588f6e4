import { say } from '../model/say.ts';
import type { Figure } from '../geometry/figure.ts';
import type { GroundShape, PicturePoint } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { dots, handlesAt, lastOf, movedIf, nameOfPlace } from './places.ts';

/** A mat's outline, or the two sticks; of places measured one by one nothing joins them. */
function joining({ layout, places: [first, second, third, fourth] }: GroundShape): readonly Figure[] {
  if (first === undefined || second === undefined || third === undefined || fourth === undefined) return [];
  const line = ({ x, y }: PicturePoint, b: PicturePoint): Figure => ({
    kind: 'line',
    a: { x, y },
    b: { x: b.x, y: b.y },
  });
  switch (layout) {
    case 'mat':
      return [line(first, second), line(second, third), line(third, fourth), line(fourth, first)];
    case 'sticks':
      return [line(first, second), line(third, fourth)];
    case 'measured':
      return [];
  }
}

export const ground = {
  label: say`Ground marks`,
  isForMeasure: true,
  tool: {
    key: 'g',
    icon: {
      line: 'M1.5 11.5 16.5 8M6 4.5l6 11',
      dots: [
        [6, 4.5],
        [12, 15.5],
      ],
    },
    short: say`Ground`,
  },
  handles: ({ places }) => handlesAt(places),
  moved: (shape, handle, by) => ({
    ...shape,
    places: shape.places.map((place, at) => ({ ...place, ...movedIf(place, nameOfPlace(at), handle, by) })),
  }),
  figures: (shape) => [...joining(shape), ...dots(shape.places)],
  taken: ({ places }) => dots(places),
  labelAt: ({ places }) => lastOf(places),
  numbers: () => [],
  text: () => say`ground marks`,
  copied: () => null,
} as const satisfies ShapeKindOf<GroundShape>;
