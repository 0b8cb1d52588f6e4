import type { FrameMarks, PicturePoint, Shape } from '../model/mark.ts';
import { kindOf } from '../shapes/shapes.ts';
import { STICKS } from './sticks.ts';

/** What is drawn on a picture that is looked at small and only once: no points, no names, nothing that is only measured by. */

/** Whether a shape was drawn to be looked at. One that stands for something (a plumb, a known length, the ball) was not. */
export function isForStudents(shape: Shape): boolean {
  return !kindOf(shape).isForMeasure && !('role' in shape && shape.role !== null);
}

/** How close together places of a body lie, as a part of the picture's height: close enough that no text fits between. */
const BODY_SPACING = 0.02;

/** Places along the player's body and over the head, which a student looks at: no text should stand there. */
export function bodyPlaces({ points }: FrameMarks, pictureHeight: number): readonly PicturePoint[] {
  const spacing = BODY_SPACING * pictureHeight;
  const along = STICKS.flatMap(({ from, to }) => {
    const [a, b] = [points[from], points[to]];
    if (a === undefined || b === undefined) return [];
    const steps = Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / spacing);
    return Array.from({ length: steps }, (_, step) => ({
      x: a.x + ((b.x - a.x) * step) / steps,
      y: a.y + ((b.y - a.y) * step) / steps,
    }));
  });
  const [head, neck] = [points['head-centre'], points['neck-base']];
  if (head === undefined || neck === undefined) return along;
  const radius = Math.hypot(head.x - neck.x, head.y - neck.y);
  const over = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((eighth) =>
    [0.35, 0.75].map((part) => ({
      x: head.x + part * radius * Math.cos((eighth * Math.PI) / 4),
      y: head.y + part * radius * Math.sin((eighth * Math.PI) / 4),
    })),
  );
  return [...along, { x: head.x, y: head.y }, ...over];
}
