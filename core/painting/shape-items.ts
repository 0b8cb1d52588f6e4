import type { AngleShape, GroundShape, PicturePoint, Shape } from '../model/mark.ts';
import type { ArcItem, LineWeight, PlacedItem, SegmentItem } from './draw-item.ts';
import type { Style } from './styles.ts';

/** Longest radius of the little arc that shows an angle, as a part of the picture's height. */
const ARC_PART_OF_HEIGHT = 0.05;
/** The arc stays within this part of the shorter arm. */
const ARC_PART_OF_ARM = 0.4;

interface ShapeOptions {
  readonly look: Style;
  /** `line` when left out. */
  readonly weight?: LineWeight;
  /** Height of the picture in pixels. */
  readonly height: number;
}

/** What is drawn for one shape, and the place its label belongs to. */
export function shapeItems(
  shape: Shape,
  options: ShapeOptions,
): { readonly items: readonly PlacedItem[]; readonly labelAt: PicturePoint } {
  const style = { look: options.look, weight: options.weight ?? 'line' };
  const dots = (places: readonly PicturePoint[]): readonly PlacedItem[] =>
    places.map(({ x, y }) => ({ kind: 'place', at: { x, y }, look: options.look }));
  switch (shape.kind) {
    case 'line': {
      const ends = shape.role === 'yardstick' ? 'ticks' : 'plain';
      const middle = { x: (shape.a.x + shape.b.x) / 2, y: (shape.a.y + shape.b.y) / 2 };
      return { items: [{ kind: 'segment', a: shape.a, b: shape.b, ends, ...style }], labelAt: middle };
    }
    case 'angle': {
      const arms: PlacedItem = { kind: 'polyline', points: [shape.a, shape.vertex, shape.b], ...style };
      const arc = angleArc(shape, options);
      return { items: arc === null ? [arms] : [arms, arc], labelAt: arc === null ? shape.vertex : arcMiddle(arc) };
    }
    case 'box': {
      const { x, y, width, height } = shape;
      return { items: [{ kind: 'box', x, y, width, height, ...style }], labelAt: { x: x + width, y } };
    }
    case 'circle': {
      const { centre, radius } = shape;
      const reach = radius * Math.SQRT1_2;
      return {
        items: [{ kind: 'circle', centre, radius, ...style }],
        labelAt: { x: centre.x + reach, y: centre.y - reach },
      };
    }
    case 'free':
      return { items: [{ kind: 'polyline', points: shape.places, ...style }], labelAt: endOf(shape.places) };
    case 'path': {
      const line: PlacedItem = { kind: 'polyline', points: shape.places, ...style };
      const places = dots(shape.places);
      return { items: shape.places.length < 2 ? places : [line, ...places], labelAt: endOf(shape.places) };
    }
    case 'ground':
      return { items: [...groundLines(shape, style), ...dots(shape.places)], labelAt: endOf(shape.places) };
    case 'edge': {
      const places = dots(shape.places);
      const line: PlacedItem = { kind: 'polyline', points: shape.places, ...style };
      return { items: shape.places.length < 2 ? places : [line, ...places], labelAt: endOf(shape.places) };
    }
  }
}

/** A mat's outline, or the two sticks; of places measured one by one nothing joins them. */
function groundLines(shape: GroundShape, style: Pick<SegmentItem, 'look' | 'weight'>): readonly PlacedItem[] {
  const [first, second, third, fourth] = shape.places;
  if (first === undefined || second === undefined || third === undefined || fourth === undefined) return [];
  const segment = (a: PicturePoint, b: PicturePoint): PlacedItem => ({
    kind: 'segment',
    a,
    b,
    ends: 'plain',
    ...style,
  });
  switch (shape.layout) {
    case 'mat':
      return [segment(first, second), segment(second, third), segment(third, fourth), segment(fourth, first)];
    case 'sticks':
      return [segment(first, second), segment(third, fourth)];
    case 'measured':
      return [];
  }
}

function endOf(places: readonly PicturePoint[]): PicturePoint {
  const { x, y } = places.at(-1) ?? { x: 0, y: 0 };
  return { x, y };
}

/** The arc inside an angle (0 to pi), or null when an arm has no length. */
export function angleArc(
  { vertex, a, b }: Pick<AngleShape, 'vertex' | 'a' | 'b'>,
  options: ShapeOptions,
): ArcItem | null {
  const shorter = Math.min(Math.hypot(a.x - vertex.x, a.y - vertex.y), Math.hypot(b.x - vertex.x, b.y - vertex.y));
  if (shorter === 0) return null;
  const toA = Math.atan2(a.y - vertex.y, a.x - vertex.x);
  const toB = Math.atan2(b.y - vertex.y, b.x - vertex.x);
  const fromAToB = (toB - toA + 2 * Math.PI) % (2 * Math.PI);
  const [start, sweep] = fromAToB <= Math.PI ? [toA, fromAToB] : [toB, 2 * Math.PI - fromAToB];
  const radius = Math.min(options.height * ARC_PART_OF_HEIGHT, shorter * ARC_PART_OF_ARM);
  return { kind: 'arc', centre: vertex, radius, start, end: start + sweep, look: options.look, weight: 'stick' };
}

export function arcMiddle(arc: ArcItem): PicturePoint {
  const angle = (arc.start + arc.end) / 2;
  return { x: arc.centre.x + arc.radius * Math.cos(angle), y: arc.centre.y + arc.radius * Math.sin(angle) };
}
