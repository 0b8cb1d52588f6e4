import type { PicturePoint } from '../model/mark.ts';
import { sharedArea, type Box } from './box.ts';

/** A text that wants a place near `at`. All in target pixels. */
export interface WantedLabel {
  readonly at: PicturePoint;
  readonly width: number;
  readonly height: number;
}

/** Directions in the order they are tried when all are equally free: beside first, as one reads. */
const DIRECTIONS = [
  [1, 0],
  [-1, 0],
  [1, -1],
  [1, 1],
  [-1, -1],
  [-1, 1],
  [0, -1],
  [0, 1],
] as const;
/** Distances from the point, as multiples of the gap: near places win over far ones. */
const DISTANCES = [1, 1.9, 3] as const;
/** What a place costs: covering a text is worse than covering a point, a point than a line, a line than standing off. */
const COST = { text: 100, point: 20, line: 2, farther: 8, direction: 0.01 } as const;

/**
 * Finds a place for each label, first come first served: near its point, inside `visible`, over no earlier label and over
 * as little as it can of points and of places along lines. When all is full, labels overlap rather than vanish; each always lies inside `visible` when
 * it fits there at all.
 * @param gap distance between a point and the nearest edge of its label, >= 0
 */
export function placeLabels(
  labels: readonly WantedLabel[],
  drawn: { readonly points: readonly PicturePoint[]; readonly lines: readonly PicturePoint[] },
  visible: Box | null,
  gap: number,
): readonly Box[] {
  const placed: Box[] = [];
  const around = (p: PicturePoint): Box => ({ x: p.x - gap / 2, y: p.y - gap / 2, width: gap, height: gap });
  const points = drawn.points.map(around);
  const lines = drawn.lines.map(around);
  for (const label of labels) {
    let best: { box: Box; cost: number } | null = null;
    for (const [step, distance] of DISTANCES.entries()) {
      for (const [rank, [dx, dy]] of DIRECTIONS.entries()) {
        const reach = gap * distance;
        const box = pushedInside(
          {
            x: label.at.x - label.width / 2 + dx * (label.width / 2 + reach),
            y: label.at.y - label.height / 2 + dy * (label.height / 2 + reach),
            width: label.width,
            height: label.height,
          },
          visible,
        );
        const cost =
          COST.text * coveredParts(placed, box) +
          COST.point * coveredParts(points, box) +
          COST.line * coveredParts(lines, box) +
          COST.farther * step +
          COST.direction * rank;
        if (best === null || cost < best.cost) best = { box, cost };
      }
    }
    if (best !== null) placed.push(best.box);
  }
  return placed;
}

/** Sum over the others of the part of each (0 to 1) that `box` covers. */
function coveredParts(others: readonly Box[], box: Box): number {
  return others.reduce((sum, other) => sum + sharedArea(other, box) / (other.width * other.height), 0);
}

function pushedInside(box: Box, visible: Box | null): Box {
  if (visible === null) return box;
  const x = Math.max(visible.x, Math.min(box.x, visible.x + visible.width - box.width));
  const y = Math.max(visible.y, Math.min(box.y, visible.y + visible.height - box.height));
  return { ...box, x, y };
}
