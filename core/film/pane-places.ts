import type { TalkPane } from '../model/talk.ts';
import type { Box } from '../painting/box.ts';
import { FILM_SIZES, type FilmShape } from '../talk/film-plan.ts';

/** Where one picture stands in the video's picture. Both boxes have the same aspect, so nothing is distorted. */
export interface PanePlace {
  readonly pane: TalkPane;
  /** The room that is kept for it, pixels of the video. */
  readonly room: Box;
  /** The part of the clip's picture, in its own pixels. */
  readonly source: Box;
  /** Where that part stands. */
  readonly target: Box;
  /** Pixels of the video a pixel of the clip. */
  readonly scale: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Pixels between two pictures. */
const GAP = 8;

/**
 * One picture takes all of the room; two stand side by side on a screen, one above the other on a phone. What is looked at
 * of a picture is shown whole; where room is left, so is what lies round it.
 */
export function placePanes(
  panes: readonly TalkPane[],
  shape: FilmShape,
  sizeOf: (pane: TalkPane) => Size,
): readonly PanePlace[] {
  return panes.map((pane, index) => {
    const room = roomOf(index, panes.length, shape);
    const picture = sizeOf(pane);
    const source = sourceOf(pane, picture, room);
    const scale = Math.min(room.width / source.width, room.height / source.height);
    const [width, height] = [source.width * scale, source.height * scale];
    const target = { x: room.x + (room.width - width) / 2, y: room.y + (room.height - height) / 2, width, height };
    return { pane, room, source, target, scale };
  });
}

function roomOf(index: number, count: number, shape: FilmShape): Box {
  const { width, height } = FILM_SIZES[shape];
  if (count === 1) return { x: 0, y: 0, width, height };
  if (shape === 'wide') {
    const each = (width - GAP) / 2;
    return { x: index * (each + GAP), y: 0, width: each, height };
  }
  const each = (height - GAP) / 2;
  return { x: 0, y: index * (each + GAP), width, height: each };
}

/** The part that is looked at, within the picture, grown to the room's proportions as far as the picture goes. */
function sourceOf({ part }: TalkPane, picture: Size, room: Box): Box {
  const all = { x: 0, y: 0, ...picture };
  const wanted = part === null ? all : (common(part, all) ?? all);
  const aspect = room.width / room.height;
  const width = Math.min(picture.width, Math.max(wanted.width, wanted.height * aspect));
  const height = Math.min(picture.height, Math.max(wanted.height, wanted.width / aspect));
  const within = (middle: number, length: number, most: number): number =>
    Math.max(0, Math.min(most - length, middle - length / 2));
  return {
    x: within(wanted.x + wanted.width / 2, width, picture.width),
    y: within(wanted.y + wanted.height / 2, height, picture.height),
    width,
    height,
  };
}

function common(one: Box, other: Box): Box | null {
  const x = Math.max(one.x, other.x);
  const y = Math.max(one.y, other.y);
  const width = Math.min(one.x + one.width, other.x + other.width) - x;
  const height = Math.min(one.y + one.height, other.y + other.height) - y;
  return width > 0 && height > 0 ? { x, y, width, height } : null;
}
