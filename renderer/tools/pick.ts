import { BODY_POINTS } from '../../core/model/body-points.ts';
import { outlineOf } from '../../core/geometry/box.ts';
import type { Figure } from '../../core/geometry/figure.ts';
import type { FrameMarks, PicturePoint, Shape } from '../../core/model/mark.ts';
import { apart } from '../../core/shapes/places.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import { handlesOf } from './target.ts';
import type { Target } from './target.ts';

/** Shortest distance from `at` to the stretch from `a` to `b`, in pixels. */
function distanceToStretch(at: PicturePoint, a: PicturePoint, b: PicturePoint): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const squared = dx * dx + dy * dy;
  if (squared === 0) return apart(at, a);
  const along = Math.min(1, Math.max(0, ((at.x - a.x) * dx + (at.y - a.y) * dy) / squared));
  return apart(at, { x: a.x + along * dx, y: a.y + along * dy });
}

/** Shortest distance from `at` to the line through all places, in pixels. */
function distanceToPlaces(at: PicturePoint, places: readonly PicturePoint[]): number {
  const stretches = places.slice(1).map((b, place) => distanceToStretch(at, places[place] ?? b, b));
  return Math.min(...stretches, ...places.slice(0, 1).map((first) => apart(at, first)));
}

/** Shortest distance from `at` to what is drawn of a shape, in pixels, >= 0. */
export function distanceToOutline(at: PicturePoint, shape: Shape): number {
  const kind = kindOf(shape);
  return Math.min(...(kind.taken ?? kind.figures)(shape).map((figure) => distanceToFigure(at, figure)));
}

function distanceToFigure(at: PicturePoint, figure: Figure): number {
  switch (figure.kind) {
    case 'line':
    case 'arrow':
    case 'length':
      return distanceToStretch(at, figure.a, figure.b);
    case 'curve':
      return distanceToPlaces(at, figure.points);
    case 'place':
    case 'words':
      return apart(at, figure.at);
    case 'circle':
      return Math.abs(apart(at, figure.centre) - figure.radius);
    case 'box':
      return distanceToPlaces(at, outlineOf(figure.box));
    // The little arc stands within arms that are drawn by themselves.
    case 'angle':
      return Infinity;
  }
}

/**
 * What a press at `at` takes: the nearest body point or handle within `reach` pixels; with none in reach, the shape whose
 * outline is nearest within `reach`; else null. At equal distance a body point wins, then what was drawn later.
 */
export function pick(marks: FrameMarks, at: PicturePoint, reach: number): Target | null {
  const laterFirst = marks.shapes.toReversed();
  const points = BODY_POINTS.flatMap((point) => {
    const placed = marks.points[point];
    return placed === undefined ? [] : [{ target: { kind: 'point', point } as const, away: apart(at, placed) }];
  });
  const handles = laterFirst.flatMap((shape) =>
    handlesOf(shape).map((handle) => ({
      target: { kind: 'shape', id: shape.id, handle: handle.name } as const,
      away: apart(at, handle.at),
    })),
  );
  const outlines = laterFirst.map((shape) => ({
    target: { kind: 'shape', id: shape.id, handle: null } as const,
    away: distanceToOutline(at, shape),
  }));
  return nearest([...points, ...handles], reach) ?? nearest(outlines, reach);
}

function nearest(candidates: readonly { target: Target; away: number }[], reach: number): Target | null {
  let best: { target: Target; away: number } | null = null;
  for (const candidate of candidates) {
    if (candidate.away <= reach && (best === null || candidate.away < best.away)) best = candidate;
  }
  return best?.target ?? null;
}
