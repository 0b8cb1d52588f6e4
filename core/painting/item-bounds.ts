import type { PicturePoint } from '../model/mark.ts';
import type { Box } from './box.ts';
import type { PlacedItem } from './draw-item.ts';

/**
 * The upright box, in picture coordinates, round the middle of all that an item strokes or fills: without the widths of its
 * strokes, the radius of its ring or the bars across its ends, which are constant on the target. No smaller than it must
 * be; of an arc it is the box of the whole circle.
 */
export function boundsOf(item: PlacedItem): Box {
  switch (item.kind) {
    case 'segment':
      return around([item.a, item.b]);
    case 'polyline':
      return around(item.points);
    case 'box':
      return { x: item.x, y: item.y, width: item.width, height: item.height };
    case 'circle':
    case 'arc':
    case 'wedge': {
      const { centre, radius } = item;
      return { x: centre.x - radius, y: centre.y - radius, width: 2 * radius, height: 2 * radius };
    }
    case 'point':
    case 'place':
    case 'words':
      return { x: item.at.x, y: item.at.y, width: 0, height: 0 };
  }
}

/**
 * Whether a box comes within `margin` of another, edges included. Boxes without width or height (a place, an upright
 * line) count like all others.
 * @param margin in the unit of the boxes, >= 0
 */
export function isNear(one: Box, other: Box, margin: number): boolean {
  return (
    one.x <= other.x + other.width + margin &&
    other.x <= one.x + one.width + margin &&
    one.y <= other.y + other.height + margin &&
    other.y <= one.y + one.height + margin
  );
}

function around(points: readonly PicturePoint[]): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}
