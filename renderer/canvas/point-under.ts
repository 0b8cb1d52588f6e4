import type { PicturePoint } from '../../core/model/mark.ts';
import type { DrawItem } from '../../core/painting/draw-item.ts';

/** The body point nearest to a place, no farther off than `reach` (picture pixels, >= 0); null where none is. */
export function pointUnder(items: readonly DrawItem[], at: PicturePoint, reach: number): PicturePoint | null {
  let nearest: { readonly at: PicturePoint; readonly away: number } | null = null;
  for (const item of items) {
    if (item.kind !== 'point') continue;
    const away = Math.hypot(item.at.x - at.x, item.at.y - at.y);
    if (away <= reach && (nearest === null || away < nearest.away)) nearest = { at: item.at, away };
  }
  return nearest?.at ?? null;
}
