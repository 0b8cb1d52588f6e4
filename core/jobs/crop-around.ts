import type { FrameMarks } from '../model/mark.ts';
import type { Box } from '../painting/box.ts';

/** Left free on each side of what is marked, as a part of the picture's height: room for a club and a label. */
const MARGIN = 0.2;
/** Narrowest crop, as a part of the picture's height: a player with a club, and what stands around them. */
const NARROWEST = 0.7;

/**
 * The part of a wide picture that a still shows: its whole height, and of its width the columns where something is marked,
 * so that the player is not a small figure between two walls. All frames of a clip that stand on one still share it.
 * Null = the whole picture: it is no wider than that anyway, or nothing is marked.
 */
export function cropAround(
  picture: { readonly width: number; readonly height: number },
  marks: readonly (FrameMarks | null)[],
): Box | null {
  const columns = marks
    .flatMap((each) => (each === null ? [] : columnsOf(each)))
    .filter((x) => x >= 0 && x <= picture.width);
  if (columns.length === 0) return null;
  const left = Math.min(...columns) - MARGIN * picture.height;
  const right = Math.max(...columns) + MARGIN * picture.height;
  const width = Math.ceil(Math.max(right - left, NARROWEST * picture.height));
  if (width >= picture.width) return null;
  const x = Math.round((left + right - width) / 2);
  return { x: Math.min(Math.max(x, 0), picture.width - width), y: 0, width, height: picture.height };
}

function columnsOf({ points, shapes }: FrameMarks): readonly number[] {
  const columns = Object.values(points).map(({ x }) => x);
  for (const shape of shapes)
    switch (shape.kind) {
      case 'line':
        // A plumb or yardstick stands where the bay has one, not where the player is.
        if (shape.role === null) columns.push(shape.a.x, shape.b.x);
        break;
      case 'angle':
        columns.push(shape.vertex.x, shape.a.x, shape.b.x);
        break;
      case 'box':
        columns.push(shape.x, shape.x + shape.width);
        break;
      case 'circle':
        columns.push(shape.centre.x - shape.radius, shape.centre.x + shape.radius);
        break;
    }
  return columns;
}
