import { say } from '../model/say.ts';
import { cornersOf } from '../geometry/box.ts';
import { lengthNumber, type ShapeContext, type ShapeNumber } from '../measure/readings/shape-number.ts';
import { valueAt } from '../measure/uncertainty/value-at.ts';
import type { BoxShape, PicturePoint } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { apart, shifted, SMALLEST_SHAPE } from './places.ts';

type Sides = Pick<BoxShape, 'x' | 'y' | 'width' | 'height'>;

/** The upright box round places; two opposite corners are enough. */
export function boxRound(places: readonly PicturePoint[]): Sides {
  const across = places.map(({ x }) => x);
  const down = places.map(({ y }) => y);
  const [x, y] = [Math.min(...across), Math.min(...down)];
  return { x, y, width: Math.max(...across) - x, height: Math.max(...down) - y };
}

function numbers(box: BoxShape, context: ShapeContext): readonly ShapeNumber[] {
  const side = (id: 'width' | 'height', start: number, extent: number): ShapeNumber => {
    const edges = [
      { name: say`first edge`, value: start, u: context.sigma },
      { name: say`second edge`, value: start + extent, u: context.sigma },
    ];
    return lengthNumber(id, (values) => Math.abs(valueAt(values, 1) - valueAt(values, 0)), edges, context);
  };
  return [side('width', box.x, box.width), side('height', box.y, box.height)];
}

/** Upright, also after it was copied: the box round its turned corners. */
export const box = {
  label: say`Box`,
  isForMeasure: false,
  tool: {
    key: 'b',
    icon: { line: 'M3 4h12v10H3z' },
    hints: [
      say`Drag a box from corner to corner, or click two corners.`,
      say`Click the opposite corner, or let go there.`,
    ],
  },
  drawn: {
    places: 2,
    through([first, second], id) {
      if (first === undefined || second === undefined || apart(first, second) < SMALLEST_SHAPE) return null;
      return { kind: 'box', id, ...boxRound([first, second]), role: null };
    },
  },
  handles: (shape) => cornersOf(shape).map((at, corner) => ({ name: `corner-${String(corner)}`, at })),
  moved(shape, handle, by) {
    if (handle === null) return { ...shape, ...shifted(shape, by) };
    const corners = cornersOf(shape);
    const held = Number(handle.slice(-1));
    const [near, far] = [corners[held], corners[(held + 2) % 4]];
    return near === undefined || far === undefined ? shape : { ...shape, ...boxRound([far, shifted(near, by)]) };
  },
  figures: ({ x, y, width, height }) => [{ kind: 'box', box: { x, y, width, height } }],
  labelAt: ({ x, y, width }) => ({ x: x + width, y }),
  numbers,
  text({ role }, number) {
    if (role === 'head-box') return say`head box`;
    if (role === 'head') return 'head';
    const sides = [number('width'), number('height')];
    return sides.includes('') ? '' : sides.join(' by ');
  },
  copied: (shape, id, { isSame, place }) =>
    isSame ? { ...shape, id } : { ...shape, id, ...boxRound(cornersOf(shape).map(place)), role: null },
} as const satisfies ShapeKindOf<BoxShape>;
