import type { PicturePoint } from '../../core/model/mark.ts';
import type { Box } from '../../core/painting/box.ts';

/** A place in the bench, in CSS pixels from its upper left corner. */
export interface ScreenPoint {
  readonly left: number;
  readonly top: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How the picture lies in the bench: left = x * zoom + panLeft, top = y * zoom + panTop. `zoom` > 0. */
export interface ViewTransform {
  readonly zoom: number;
  readonly panLeft: number;
  readonly panTop: number;
}

/** Screen pixels a picture pixel at most. */
export const LARGEST_ZOOM = 32;
/** The picture can be made this much smaller than it fits, not smaller still. */
const SMALLEST_PART_OF_FIT = 0.5;

export function toScreen(view: ViewTransform, at: PicturePoint): ScreenPoint {
  return { left: at.x * view.zoom + view.panLeft, top: at.y * view.zoom + view.panTop };
}

export function toPicture(view: ViewTransform, at: ScreenPoint): PicturePoint {
  return { x: (at.left - view.panLeft) / view.zoom, y: (at.top - view.panTop) / view.zoom };
}

/** The whole picture as large as it goes in, in the middle. */
export function fitted(picture: Size, bench: Size): ViewTransform {
  const zoom = Math.min(bench.width / picture.width, bench.height / picture.height, LARGEST_ZOOM);
  return centred(picture, bench, Math.max(zoom, Number.MIN_VALUE));
}

/**
 * A part of the picture as large as it goes in, in the middle; moved so far that nothing lies beside the picture where the
 * picture would fill it.
 * @param part in the picture, wider and higher than 0
 */
export function fittedTo(part: Box, picture: Size, bench: Size): ViewTransform {
  const zoom = Math.min(bench.width / part.width, bench.height / part.height, LARGEST_ZOOM);
  const place = (from: number, length: number, whole: number, room: number): number => {
    const inTheMiddle = room / 2 - (from + length / 2) * zoom;
    const beside = room - whole * zoom;
    return beside > 0 ? beside / 2 : Math.min(0, Math.max(beside, inTheMiddle));
  };
  return {
    zoom,
    panLeft: place(part.x, part.width, picture.width, bench.width),
    panTop: place(part.y, part.height, picture.height, bench.height),
  };
}

/** The picture at `zoom`, in the middle. */
export function centred(picture: Size, bench: Size, zoom: number): ViewTransform {
  return {
    zoom,
    panLeft: (bench.width - picture.width * zoom) / 2,
    panTop: (bench.height - picture.height * zoom) / 2,
  };
}

/** Zooms by `factor` (clamped between half of fit and 32), the picture place under `around` staying where it is. */
export function zoomed(
  view: ViewTransform,
  factor: number,
  around: ScreenPoint,
  picture: Size,
  bench: Size,
): ViewTransform {
  const smallest = fitted(picture, bench).zoom * SMALLEST_PART_OF_FIT;
  const zoom = Math.min(LARGEST_ZOOM, Math.max(smallest, view.zoom * factor));
  const held = toPicture(view, around);
  return kept({ zoom, panLeft: around.left - held.x * zoom, panTop: around.top - held.y * zoom }, picture, bench);
}

/** Moves the picture by screen pixels. */
export function panned(view: ViewTransform, left: number, top: number, picture: Size, bench: Size): ViewTransform {
  return kept({ ...view, panLeft: view.panLeft + left, panTop: view.panTop + top }, picture, bench);
}

/**
 * Two fingers moved: the picture places that were under them lie under them again, as far as zoom and edges allow. The zoom
 * goes by how far they are apart, around the middle between them. Fingers on one place move it only.
 */
export function pinched(
  view: ViewTransform,
  from: readonly [ScreenPoint, ScreenPoint],
  to: readonly [ScreenPoint, ScreenPoint],
  picture: Size,
  bench: Size,
): ViewTransform {
  const apart = ([one, other]: readonly [ScreenPoint, ScreenPoint]): number =>
    Math.hypot(other.left - one.left, other.top - one.top);
  const middle = ([one, other]: readonly [ScreenPoint, ScreenPoint]): ScreenPoint => ({
    left: (one.left + other.left) / 2,
    top: (one.top + other.top) / 2,
  });
  const [before, after] = [middle(from), middle(to)];
  const factor = apart(from) === 0 || apart(to) === 0 ? 1 : apart(to) / apart(from);
  const larger = zoomed(view, factor, before, picture, bench);
  return panned(larger, after.left - before.left, after.top - before.top, picture, bench);
}

/** Some of the picture always stays in sight: its nearest edge goes no farther than the middle of the bench. */
function kept(view: ViewTransform, picture: Size, bench: Size): ViewTransform {
  const clamp = (pan: number, pictureLength: number, benchLength: number): number =>
    Math.min(benchLength / 2, Math.max(benchLength / 2 - pictureLength * view.zoom, pan));
  return {
    zoom: view.zoom,
    panLeft: clamp(view.panLeft, picture.width, bench.width),
    panTop: clamp(view.panTop, picture.height, bench.height),
  };
}

/** What of the picture is in the middle of the bench. */
export function visibleCentre(view: ViewTransform, bench: Size): PicturePoint {
  return toPicture(view, { left: bench.width / 2, top: bench.height / 2 });
}
