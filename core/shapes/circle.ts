import { say } from '../model/say.ts';
import { fitCircle } from '../geometry/fit-circle.ts';
import {
  lengthNumber,
  pointAt,
  pointInputs,
  type ShapeContext,
  type ShapeNumber,
} from '../measure/readings/shape-number.ts';
import { valueAt } from '../measure/uncertainty/value-at.ts';
import type { Quantity } from '../measure/uncertainty/uncertain.ts';
import type { CircleShape } from '../model/mark.ts';
import { carriedOf, type ShapeKindOf } from './kind.ts';
import { movedIf, shifted } from './places.ts';

const rimName = (place: number): string => `rim-${String(place)}`;

/** Radius and diameter, of one through places on its edge from all of them. */
function numbers({ rim = [], radius }: CircleShape, context: ShapeContext): readonly ShapeNumber[] {
  const both = (found: (values: readonly number[]) => number | null, quantities: readonly Quantity[]) => {
    const doubled = (values: readonly number[]) => {
      const single = found(values);
      return single === null ? null : 2 * single;
    };
    return [lengthNumber('radius', found, quantities, context), lengthNumber('diameter', doubled, quantities, context)];
  };
  if (rim.length >= 3) {
    const places = rim.flatMap((place, at) => pointInputs(String(at), place, context.sigma));
    return both((values) => fitCircle(rim.map((_, at) => pointAt(values, 2 * at)))?.radius ?? null, places);
  }
  // Centre and rim are each placed by hand: along the radius both err.
  const placed = [{ name: 'radius', value: radius, u: Math.SQRT2 * context.sigma }];
  return both((values) => Math.abs(valueAt(values, 0)), placed);
}

/** Drawn from its middle, or through places on its edge: then it is taken by those and fitted anew. */
export const circle = {
  label: say`Circle`,
  isForMeasure: false,
  tool: {
    key: 'c',
    icon: { line: 'M15.2 9a6.2 6.2 0 1 1-12.4 0 6.2 6.2 0 1 1 12.4 0' },
    hints: [
      say`Click three or more places on the edge, or drag from the middle to the edge.`,
      say`Click more places on the edge. Enter or a second click on the last one ends it, Backspace goes back one.`,
    ],
  },
  handles: ({ centre, radius, rim }) =>
    rim?.map((at, place) => ({ name: rimName(place), at })) ?? [
      { name: 'centre', at: centre },
      { name: 'edge', at: { x: centre.x + radius, y: centre.y }, isSize: true },
    ],
  moved(shape, handle, by) {
    const { centre, radius, rim } = shape;
    if (rim === undefined)
      return handle === 'edge'
        ? { ...shape, radius: Math.hypot(radius + by.x, by.y) }
        : { ...shape, centre: shifted(centre, by) };
    if (handle === null) return { ...shape, centre: shifted(centre, by), rim: rim.map((at) => shifted(at, by)) };
    const moved = rim.map((at, place) => movedIf(at, rimName(place), handle, by));
    const fit = fitCircle(moved);
    // Places on a line change nothing.
    return fit === null ? shape : { ...shape, centre: fit.centre, radius: fit.radius, rim: moved };
  },
  figures: ({ centre, radius }) => [{ kind: 'circle', centre, radius }],
  labelAt: ({ centre, radius }) => ({ x: centre.x + radius * Math.SQRT1_2, y: centre.y - radius * Math.SQRT1_2 }),
  numbers,
  text({ role }, number) {
    if (role === 'ball') return 'ball';
    return number('diameter') === '' ? '' : say`diameter ${number('diameter')}`;
  },
  copied(shape, id, { isSame, place, scale }) {
    const [centre, radius] = [place(shape.centre), shape.radius * scale];
    const role = isSame && shape.role !== undefined ? { role: shape.role } : {};
    const plain = { id, kind: 'circle', ...carriedOf(shape), ...role } as const;
    if (shape.rim === undefined) return { ...plain, centre, radius };
    const rim = shape.rim.map(place);
    const fit = isSame ? null : fitCircle(rim);
    return { ...plain, centre: fit?.centre ?? centre, radius: fit?.radius ?? radius, rim };
  },
} as const satisfies ShapeKindOf<CircleShape>;
