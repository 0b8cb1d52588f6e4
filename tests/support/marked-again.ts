import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { PathPlace, PicturePoint, PlacedPoint, Shape } from '../../core/model/mark.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';

/**
 * How much farther off a hidden point is placed than one in sight. A hip under a shirt or an elbow behind the chest is guessed
 * to some 2.5 cm (one standard deviation). That is 9 to 10 px, where a click on a bare joint is off by 3. Of the test, not of
 * the program.
 */
const HIDDEN_TIMES = 3;

/** A blurred clubhead is placed somewhere on its smear; with a shutter open for a third of a frame, 0.34 / sqrt(12) of its way. */
const SMEAR_PART = 0.34 / Math.sqrt(12);

/**
 * The same swing marked by a hand that is off by a normal error of `click` px in x and in y: every point (a hidden one by more),
 * every end, corner, edge and place. Sticks are as far off their stated length as that is stated to be uncertain. On a path
 * the clubhead is besides off along its own way by its smear.
 */
export function markedAgain(swing: MarkedSwing, click: number, numbers: Seeded): MarkedSwing {
  const moved = ({ x, y }: PicturePoint, by: number = click): PicturePoint => ({
    x: x + by * numbers.normal(),
    y: y + by * numbers.normal(),
  });
  const point = (placed: PlacedPoint): PlacedPoint => ({
    ...moved(placed, placed.hidden ? HIDDEN_TIMES * click : click),
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
    const blur = (SMEAR_PART * numbers.normal()) / Math.max(1, frames);
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
