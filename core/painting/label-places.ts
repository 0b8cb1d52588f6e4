import type { PicturePoint } from '../model/mark.ts';
import { sharedArea, type Box } from './box.ts';

/** A text that wants a place near `at`. All in target pixels. */
export interface WantedLabel {
  readonly at: PicturePoint;
  readonly width: number;
  readonly height: number;
}

/** Where texts lay, in target pixels, by their words and the place they stand by. Good for one view only. */
export type LabelMemory = Map<string, Box>;

/** What a label tries not to cover, in target pixels. */
export interface Drawn {
  /** Texts that lie there already. */
  readonly texts?: readonly Box[];
  readonly points: readonly PicturePoint[];
  readonly lines: readonly PicturePoint[];
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
/** Distances from the point, as multiples of the gap: near places win over far ones, which only a crowd or a body is worth. */
const DISTANCES = [1, 1.9, 3, 6, 10, 15] as const;
/** What a place costs: covering a text is worse than covering a point, a point than a line, a line than standing off. */
const COST = { text: 100, point: 20, line: 2, farther: 8, direction: 0.01 } as const;

/**
 * Finds a place for each label, first come first served: near its point, inside `visible`, over no text that lies there
 * already, over no earlier label, and over as little as it can of points and of places along lines. When all is full,
 * labels overlap rather than vanish; each always lies inside `visible` when it fits there at all.
 * @param gap distance between a point and the nearest edge of its label, >= 0
 */
export function placeLabels(
  labels: readonly WantedLabel[],
  drawn: Drawn,
  visible: Box | null,
  gap: number,
): readonly Box[] {
  const placed: Box[] = [];
  const texts: Box[] = [...(drawn.texts ?? [])];
  const squareOn = (p: PicturePoint): Box => ({ x: p.x - gap / 2, y: p.y - gap / 2, width: gap, height: gap });
  const points = drawn.points.map(squareOn);
  const lines = drawn.lines.map(squareOn);
  for (const label of labels) {
    let best: { box: Box; cost: number } | null = null;
    // Most of what is drawn lies far from any place that this label could take.
    const around = reachOf(label, visible, gap);
    const [nearTexts, nearPoints, nearLines] = [texts, points, lines].map((boxes) =>
      boxes.filter((box) => sharedArea(box, around) > 0),
    );
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
          COST.text * coveredParts(nearTexts ?? [], box) +
          COST.point * coveredParts(nearPoints ?? [], box) +
          COST.line * coveredParts(nearLines ?? [], box) +
          COST.farther * step +
          COST.direction * rank;
        if (best === null || cost < best.cost) best = { box, cost };
      }
    }
    if (best === null) continue;
    placed.push(best.box);
    texts.push(best.box);
  }
  return placed;
}

/** All that a label can cover, wherever it goes: its farthest places, and where those are pushed to at the edge. */
function reachOf(label: WantedLabel, visible: Box | null, gap: number): Box {
  const farthest = gap * Math.max(...DISTANCES);
  const box = {
    x: label.at.x - label.width - farthest,
    y: label.at.y - label.height - farthest,
    width: 2 * (label.width + farthest),
    height: 2 * (label.height + farthest),
  };
  const pushed = pushedInside({ ...box, width: label.width, height: label.height }, visible);
  const opposite = pushedInside(
    { ...label, x: box.x + box.width - label.width, y: box.y + box.height - label.height },
    visible,
  );
  const left = Math.min(box.x, pushed.x, opposite.x);
  const top = Math.min(box.y, pushed.y, opposite.y);
  const right = Math.max(box.x + box.width, pushed.x + label.width, opposite.x + label.width);
  const bottom = Math.max(box.y + box.height, pushed.y + label.height, opposite.y + label.height);
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/** Sum over the others of the part of each (0 to 1) that `box` covers. */
function coveredParts(others: readonly Box[], box: Box): number {
  return others.reduce((sum, other) => sum + sharedArea(other, box) / (other.width * other.height), 0);
}

/** The box, moved as far as it takes to lie inside of what is visible. */
export function pushedInside(box: Box, visible: Box | null): Box {
  if (visible === null) return box;
  const x = Math.max(visible.x, Math.min(box.x, visible.x + visible.width - box.width));
  const y = Math.max(visible.y, Math.min(box.y, visible.y + visible.height - box.height));
  return { ...box, x, y };
}
