import { say } from '../model/say.ts';
import { interiorAngle } from '../geometry/angle.ts';
import { toSwing } from '../geometry/point.ts';
import {
  angleNumber,
  pointAt,
  pointInputs,
  type ShapeContext,
  type ShapeNumber,
} from '../measure/readings/shape-number.ts';
import { estimate } from '../measure/uncertainty/estimate.ts';
import type { AngleShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { line } from './line.ts';
import { apart, movedIf, SMALLEST_SHAPE } from './places.ts';

/** In degrees, in [0, 180]. */
function numbers({ vertex, a, b }: AngleShape, { sigma }: ShapeContext): readonly ShapeNumber[] {
  const quantities = [
    ...pointInputs('vertex', vertex, sigma),
    ...pointInputs('a', a, sigma),
    ...pointInputs('b', b, sigma),
  ];
  const place = (values: readonly number[], slot: number) => toSwing(pointAt(values, slot), { side: 1, tilt: 0 });
  const result = estimate(
    (values) => interiorAngle(place(values, 0), place(values, 2), place(values, 4)),
    { quantities },
    { kind: 'angle', range: [0, Math.PI] },
  );
  return [angleNumber('angle', result, [])];
}

export const angle = {
  label: say`Angle`,
  isForMeasure: false,
  tool: {
    key: 'a',
    icon: { line: 'M15 15H3L12 3M8.5 15a5.5 5.5 0 0 0-2.2-4.4' },
    hints: [say`Click the end of one arm.`, say`Click the corner of the angle.`, say`Click the end of the other arm.`],
  },
  drawn: {
    places: 3,
    through([a, vertex, b], id) {
      if (a === undefined || vertex === undefined || b === undefined) return null;
      if (apart(a, vertex) < SMALLEST_SHAPE || apart(vertex, b) < SMALLEST_SHAPE) return null;
      return { kind: 'angle', id, a, vertex, b };
    },
    // The first arm.
    draft: (places, id) => line.drawn.through(places, id),
  },
  handles: ({ a, vertex, b }) => [
    { name: 'a', at: a },
    { name: 'vertex', at: vertex },
    { name: 'b', at: b },
  ],
  moved: (shape, handle, by) => ({
    ...shape,
    a: movedIf(shape.a, 'a', handle, by),
    vertex: movedIf(shape.vertex, 'vertex', handle, by),
    b: movedIf(shape.b, 'b', handle, by),
  }),
  figures: ({ a, vertex, b }) => [
    { kind: 'curve', points: [a, vertex, b] },
    { kind: 'angle', vertex, a, b },
  ],
  labelAt: ({ vertex }) => vertex,
  numbers,
  text: (_, number) => number('angle'),
  copied: (shape, id, { place }) => ({
    ...shape,
    id,
    vertex: place(shape.vertex),
    a: place(shape.a),
    b: place(shape.b),
  }),
} as const satisfies ShapeKindOf<AngleShape>;
