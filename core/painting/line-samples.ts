import type { PicturePoint } from '../model/mark.ts';
import type { DrawItem } from './draw-item.ts';

/** Places along everything that is stroked, `spacing` apart (in the unit of the items, > 0): what labels try to leave free. */
export function lineSamples(items: readonly DrawItem[], spacing: number): readonly PicturePoint[] {
  return items.flatMap((item) => samplesOf(item, spacing));
}

function samplesOf(item: DrawItem, spacing: number): readonly PicturePoint[] {
  switch (item.kind) {
    case 'segment':
      return alongPath([item.a, item.b], spacing);
    case 'polyline':
      return alongPath(item.points, spacing);
    case 'box': {
      const { x, y, width, height } = item;
      const right = x + width;
      const bottom = y + height;
      const corners = [
        [x, y],
        [right, y],
        [right, bottom],
        [x, bottom],
        [x, y],
      ] as const;
      return alongPath(
        corners.map(([cornerX, cornerY]) => ({ x: cornerX, y: cornerY })),
        spacing,
      );
    }
    case 'circle':
      return alongArc(item.centre, item.radius, 0, 2 * Math.PI, spacing);
    case 'arc':
      return alongArc(item.centre, item.radius, item.start, item.end, spacing);
    case 'wedge':
    case 'point':
    case 'place':
    case 'words':
    case 'label':
      return [];
  }
}

function alongPath(points: readonly PicturePoint[], spacing: number): readonly PicturePoint[] {
  return points.slice(1).flatMap((b, index) => {
    const a = points[index] ?? b;
    const steps = stepsFor(Math.hypot(b.x - a.x, b.y - a.y), spacing);
    return Array.from({ length: steps + 1 }, (_, step) => ({
      x: a.x + ((b.x - a.x) * step) / steps,
      y: a.y + ((b.y - a.y) * step) / steps,
    }));
  });
}

function alongArc(centre: PicturePoint, radius: number, start: number, end: number, spacing: number): PicturePoint[] {
  const steps = stepsFor(radius * (end - start), spacing);
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angle = start + ((end - start) * step) / steps;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

/** A line that runs far out of the picture is sampled more coarsely rather than without end. */
const MOST_STEPS = 200;

function stepsFor(length: number, spacing: number): number {
  return Math.min(MOST_STEPS, Math.max(1, Math.ceil(length / spacing)));
}
