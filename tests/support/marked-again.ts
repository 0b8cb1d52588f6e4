import { HIDDEN_FACTOR } from '../../core/measure/placing.ts';
import { BLUR_PLACING } from '../../core/measure/read-speed.ts';
import type { Seeded } from '../../core/measure/seeded.ts';
import type { PathPlace, PicturePoint, PlacedPoint, Shape } from '../../core/model/mark.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';

/**
 * The same swing marked by a hand that is off by a normal error of `click` px in x and in y: every point (a hidden one by
 * as many times as is assumed of it), every end, corner, edge and place. Sticks are as far off their stated length as that
 * is stated to be uncertain. On a path the clubhead is besides off along its own way by what its blur is assumed to hide.
 */
export function markedAgain(swing: MarkedSwing, click: number, numbers: Seeded): MarkedSwing {
  const moved = ({ x, y }: PicturePoint, by: number = click): PicturePoint => ({
    x: x + by * numbers.normal(),
    y: y + by * numbers.normal(),
  });
  const point = (placed: PlacedPoint): PlacedPoint => ({
    ...moved(placed, placed.hidden ? HIDDEN_FACTOR * click : click),
    hidden: placed.hidden,
  });
  const shape = (drawn: Shape): Shape => {
    switch (drawn.kind) {
      case 'line': {
        const ends = { ...drawn, a: moved(drawn.a), b: moved(drawn.b) };
        return drawn.lengthMm === null
          ? ends
          : { ...ends, lengthMm: drawn.lengthMm + (drawn.lengthUMm ?? 0) * numbers.normal() };
      }
      case 'box': {
        const [left, top] = [drawn.x + click * numbers.normal(), drawn.y + click * numbers.normal()];
        const right = drawn.x + drawn.width + click * numbers.normal();
        const bottom = drawn.y + drawn.height + click * numbers.normal();
        return { ...drawn, x: left, y: top, width: right - left, height: bottom - top };
      }
      case 'ground':
        return { ...drawn, places: drawn.places.map((place) => ({ ...place, ...moved(place) })) };
      case 'edge':
        return { ...drawn, places: drawn.places.map((place) => moved(place)) };
      case 'path':
        return { ...drawn, places: drawn.places.map((place, i, all) => followed(place, i, all)) };
      default:
        throw new Error(`markedAgain: no scene has a ${drawn.kind}`);
    }
  };
  const followed = (place: PathPlace, i: number, all: readonly PathPlace[]): PathPlace => {
    const [before, after] = [all[Math.max(0, i - 1)] ?? place, all[Math.min(all.length - 1, i + 1)] ?? place];
    const frames = Math.min(all.length - 1, i + 1) - Math.max(0, i - 1);
    const blur = (BLUR_PLACING * numbers.normal()) / Math.max(1, frames);
    const at = moved(place);
    return { pts: place.pts, x: at.x + blur * (after.x - before.x), y: at.y + blur * (after.y - before.y) };
  };
  const clips = swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map(({ frame, points, shapes }) => ({
      frame,
      points: Object.fromEntries(Object.entries(points).map(([id, placed]) => [id, point(placed)])),
      shapes: shapes.map(shape),
    })),
  }));
  return { ...swing, clips };
}
