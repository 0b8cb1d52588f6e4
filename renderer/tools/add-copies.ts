import type { FrameMarks, Shape } from '../../core/model/mark.ts';

/** What a shape stands for, of which a frame has at most one. */
function roleOf(shape: Shape): string | null {
  return shape.kind === 'line' || shape.kind === 'box' ? shape.role : null;
}

function plain(shape: Shape): Shape {
  if (shape.kind === 'line') {
    const { id, kind, a, b, carried } = shape;
    return { id, kind, a, b, role: null, lengthMm: null, ...(carried === true ? { carried } : {}) };
  }
  return shape.kind === 'box' ? { ...shape, role: null } : shape;
}

/**
 * The marks with copies behind the shapes that are there. What a frame has only one of (plumb, known length, head box) stays
 * with the shape that has it: a copy that would be a second one becomes plain.
 */
export function withCopies(marks: FrameMarks, copies: readonly Shape[]): FrameMarks {
  const taken = new Set(marks.shapes.map(roleOf));
  const added = copies.map((copy) => {
    const role = roleOf(copy);
    if (role === null) return copy;
    if (taken.has(role)) return plain(copy);
    taken.add(role);
    return copy;
  });
  return { ...marks, shapes: [...marks.shapes, ...added] };
}
