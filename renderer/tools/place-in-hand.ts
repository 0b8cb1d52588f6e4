import type { FrameMarks, PicturePoint } from '../../core/model/mark.ts';
import { handlesOf } from './target.ts';
import type { Target } from './target.ts';
import type { ToolState } from './tool.ts';

const NONE: PicturePoint = { x: 0, y: 0 };

/**
 * From the pointer to the exact place that the running gesture moves, in picture pixels: who takes a point or a handle
 * beside its middle holds it there. `kept`: the marks without the gesture's draft. Zero where the place is the pointer's
 * own: while something is drawn, while a whole shape is moved, and with no gesture. Also for the edge of a circle, which
 * gives its radius and not a place.
 */
export function besideThePointer(tool: ToolState, kept: FrameMarks): PicturePoint {
  switch (tool.name) {
    case 'placing':
      return tool.by;
    case 'following':
      return tool.tool === 'path' ? tool.by : NONE;
    case 'holding': {
      const at = placeOf(tool.target, kept);
      return at === null ? NONE : { x: at.x - tool.from.x, y: at.y - tool.from.y };
    }
    default:
      return NONE;
  }
}

function placeOf(target: Target, marks: FrameMarks): PicturePoint | null {
  if (target.kind === 'point') return marks.points[target.point] ?? null;
  const shape = marks.shapes.find(({ id }) => id === target.id);
  if (shape === undefined || target.handle === null) return null;
  const handle = handlesOf(shape).find(({ name }) => name === target.handle);
  return handle === undefined || handle.isSize === true ? null : handle.at;
}
