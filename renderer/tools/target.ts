import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, Shape } from '../../core/model/mark.ts';
import type { Handle, HandleName } from '../../core/shapes/kind.ts';
import { kindOf } from '../../core/shapes/shapes.ts';

/** Something on a frame that can be selected: a body point, a whole shape (`handle` null) or one handle of it. */
export type Target =
  | { readonly kind: 'point'; readonly point: BodyPointId }
  | { readonly kind: 'shape'; readonly id: string; readonly handle: HandleName | null };

/** The handles of a shape, in picture coordinates; none for one that is taken as a whole. */
export function handlesOf(shape: Shape): readonly Handle[] {
  return kindOf(shape).handles(shape);
}

/** Whether what `target` names is (still) on the frame. */
export function targetExists(marks: FrameMarks, target: Target): boolean {
  return target.kind === 'point'
    ? marks.points[target.point] !== undefined
    : marks.shapes.some((shape) => shape.id === target.id);
}
