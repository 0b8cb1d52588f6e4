import type { BodyPointId } from '../../core/model/body-points.ts';
import type { FrameMarks, PicturePoint, Shape } from '../../core/model/mark.ts';

/** The places by which a shape can be taken. */
export type HandleName =
  | 'a'
  | 'b'
  | 'vertex'
  | 'corner-0'
  | 'corner-1'
  | 'corner-2'
  | 'corner-3'
  | 'edge'
  | 'centre'
  | `rim-${number}`
  | `place-${number}`;

/** Something on a frame that can be selected: a body point, a whole shape (`handle` null) or one handle of it. */
export type Target =
  | { readonly kind: 'point'; readonly point: BodyPointId }
  | { readonly kind: 'shape'; readonly id: string; readonly handle: HandleName | null };

export interface Handle {
  readonly name: HandleName;
  readonly at: PicturePoint;
}

/**
 * The handles of a shape, in picture coordinates. A box's corners run clockwise from the upper left. A circle through
 * places is taken by those, as are ground marks and straight edges. Free lines and paths have none: they are taken as a
 * whole.
 */
export function handlesOf(shape: Shape): readonly Handle[] {
  switch (shape.kind) {
    case 'line':
      return [
        { name: 'a', at: shape.a },
        { name: 'b', at: shape.b },
      ];
    case 'angle':
      return [
        { name: 'a', at: shape.a },
        { name: 'vertex', at: shape.vertex },
        { name: 'b', at: shape.b },
      ];
    case 'box': {
      const right = shape.x + shape.width;
      const bottom = shape.y + shape.height;
      return [
        { name: 'corner-0', at: { x: shape.x, y: shape.y } },
        { name: 'corner-1', at: { x: right, y: shape.y } },
        { name: 'corner-2', at: { x: right, y: bottom } },
        { name: 'corner-3', at: { x: shape.x, y: bottom } },
      ];
    }
    case 'circle':
      if (shape.rim !== undefined) return shape.rim.map((at, place) => ({ name: `rim-${place}`, at }));
      return [
        { name: 'centre', at: shape.centre },
        { name: 'edge', at: { x: shape.centre.x + shape.radius, y: shape.centre.y } },
      ];
    case 'ground':
    case 'edge':
      return shape.places.map(({ x, y }, place) => ({ name: `place-${place}`, at: { x, y } }));
    case 'free':
    case 'path':
      return [];
  }
}

/** Whether what `target` names is (still) on the frame. */
export function targetExists(marks: FrameMarks, target: Target): boolean {
  return target.kind === 'point'
    ? marks.points[target.point] !== undefined
    : marks.shapes.some((shape) => shape.id === target.id);
}
