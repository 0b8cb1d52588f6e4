import { say } from '../model/say.ts';
import { wrapAngle } from '../geometry/angle.ts';
import { inclineFromHorizontal } from '../geometry/line.ts';
import { toSwing } from '../geometry/point.ts';
import {
  angleNumber,
  givenLength,
  lengthNumber,
  pointAt,
  pointInputs,
  type ShapeContext,
  type ShapeNumber,
} from '../measure/readings/shape-number.ts';
import { valueAt } from '../measure/uncertainty/value-at.ts';
import { estimate } from '../measure/uncertainty/estimate.ts';
import type { LineShape } from '../model/mark.ts';
import type { ReadingNote } from '../model/reading.ts';
import { carriedOf, type ShapeKindOf } from './kind.ts';
import { apart, middleOf, movedIf, SMALLEST_SHAPE } from './places.ts';

/**
 * Incline from horizontal, in degrees in (-90, 90], + when it rises toward picture right, turned by the plumb where there is
 * one; and length.
 */
function numbers(line: LineShape, context: ShapeContext): readonly ShapeNumber[] {
  // The plumb's own incline shows how far the camera rolled; turned by itself it would always be 90. A level likewise.
  const isUpright = line.role === 'plumb' || line.role === 'level';
  const plumb = isUpright ? null : context.plumb;
  const ends = [...pointInputs('a', line.a, context.sigma), ...pointInputs('b', line.b, context.sigma)];
  const quantities = plumb === null ? ends : [...ends, plumb.quantity];
  const incline = estimate(
    (values) => {
      const stance = { side: 1, tilt: plumb === null ? 0 : valueAt(values, 4) } as const;
      const rise = inclineFromHorizontal(toSwing(pointAt(values, 0), stance), toSwing(pointAt(values, 2), stance));
      return rise === null ? null : wrapAngle(rise, Math.PI);
    },
    { quantities },
    { kind: 'angle', period: Math.PI },
  );
  const notes: readonly ReadingNote[] = plumb === null && !isUpright ? ['no-plumb'] : [];
  const length =
    line.role === 'yardstick' && line.lengthMm !== null
      ? givenLength(line.lengthMm)
      : lengthNumber('length', (values) => apart(pointAt(values, 0), pointAt(values, 2)), ends, context);
  return [angleNumber('incline', incline, notes), length];
}

export const line = {
  label: say`Line`,
  isForMeasure: false,
  tool: {
    key: 'l',
    icon: { line: 'M3 15 15 3' },
    hints: [say`Drag a line, or click its two ends.`, say`Click the other end, or let go there.`],
  },
  drawn: {
    places: 2,
    through([a, b], id) {
      if (a === undefined || b === undefined || apart(a, b) < SMALLEST_SHAPE) return null;
      return { kind: 'line', id, a, b, role: null, lengthMm: null };
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
  figures: ({ a, b, role }) => [{ kind: role === 'yardstick' ? 'length' : 'line', a, b }],
  labelAt: ({ a, b }) => middleOf(a, b),
  numbers,
  text({ role }, number) {
    if (role === 'plumb' || role === 'level') return role;
    return number(role === 'yardstick' ? 'length' : 'incline');
  },
  copied(shape, id, { isSame, place }) {
    const ends = { a: place(shape.a), b: place(shape.b) };
    if (isSame) return { ...shape, ...ends, id };
    // One that was on all frames for what it stood for is on its own.
    return { id, kind: 'line', ...ends, role: null, lengthMm: null, ...(shape.role === null ? carriedOf(shape) : {}) };
  },
} as const satisfies ShapeKindOf<LineShape>;
