import type { Figure } from '../geometry/figure.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { ArcItem, Inked, LineWeight, PlacedItem } from './draw-item.ts';

/** Longest radius of the little arc that shows an angle, as a part of the picture's height. */
const ARC_PART_OF_HEIGHT = 0.05;
/** The arc stays within this part of the shorter arm. */
const ARC_PART_OF_ARM = 0.4;

export interface FigureOptions extends Inked {
  readonly weight: LineWeight;
  /** Height of the picture in pixels. */
  readonly height: number;
}

/** How a figure is painted; none for the arc of an angle whose arm has no length. */
export function figureItems(figure: Figure, { weight, height, ...options }: FigureOptions): readonly PlacedItem[] {
  const ink = inkOf(options);
  const style = { ...ink, weight };
  switch (figure.kind) {
    case 'line':
      return [{ kind: 'segment', a: figure.a, b: figure.b, ends: 'plain', ...style }];
    case 'length':
      return [{ kind: 'segment', a: figure.a, b: figure.b, ends: 'ticks', ...style }];
    case 'angle': {
      const arc = angleArc(figure, ink, height);
      return arc === null ? [] : [arc];
    }
    case 'box': {
      const { x, y, width, height: tall } = figure.box;
      return [{ kind: 'box', x, y, width, height: tall, ...style }];
    }
    case 'circle':
      return [{ kind: 'circle', centre: figure.centre, radius: figure.radius, ...style }];
    case 'curve':
      return [{ kind: 'polyline', points: figure.points, ...style }];
    case 'arrow':
      return [{ kind: 'segment', a: figure.a, b: figure.b, ends: 'arrow', ...style }];
    case 'words':
      return [{ kind: 'words', at: figure.at, text: figure.words, ...ink }];
    case 'place':
      return [{ kind: 'place', at: figure.at, ...ink }];
  }
}

/** Of whom and how it is drawn, alone. */
export function inkOf({ look, colour, thickness }: Inked): Inked {
  return { look, ...(colour === undefined ? {} : { colour }), ...(thickness === undefined ? {} : { thickness }) };
}

/** The arc inside an angle (0 to pi), or null when an arm has no length. */
function angleArc({ vertex, a, b }: Extract<Figure, { kind: 'angle' }>, ink: Inked, height: number): ArcItem | null {
  const shorter = Math.min(Math.hypot(a.x - vertex.x, a.y - vertex.y), Math.hypot(b.x - vertex.x, b.y - vertex.y));
  if (shorter === 0) return null;
  const toA = Math.atan2(a.y - vertex.y, a.x - vertex.x);
  const toB = Math.atan2(b.y - vertex.y, b.x - vertex.x);
  const fromAToB = (toB - toA + 2 * Math.PI) % (2 * Math.PI);
  const [start, sweep] = fromAToB <= Math.PI ? [toA, fromAToB] : [toB, 2 * Math.PI - fromAToB];
  const radius = Math.min(height * ARC_PART_OF_HEIGHT, shorter * ARC_PART_OF_ARM);
  return { kind: 'arc', centre: vertex, radius, start, end: start + sweep, ...ink, weight: 'stick' };
}

/** Where the number of an angle stands: the middle of the first arc; null without one. */
export function arcMiddle(items: readonly PlacedItem[]): PicturePoint | null {
  const arc = items.find((item) => item.kind === 'arc');
  if (arc === undefined) return null;
  const angle = (arc.start + arc.end) / 2;
  return { x: arc.centre.x + arc.radius * Math.cos(angle), y: arc.centre.y + arc.radius * Math.sin(angle) };
}
