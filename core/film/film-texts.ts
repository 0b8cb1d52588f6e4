import type { Box } from '../painting/box.ts';
import { fontOf } from '../painting/styles.ts';
import { wrapText, type MeasureText } from '../painting/text-wrap.ts';
import { FILM_SIZES, type FilmShape } from '../talk/film-plan.ts';

/**
 * Sizes in pixels of the video. Seen 360 pixels wide, on a phone, its smallest letters are 11 pixels high: a wide video is
 * then made 5.3 times smaller, an upright one 3 times.
 */
export const FILM_TEXT = {
  wide: { title: 56, label: 56, caption: 60, unit: 2.6 },
  phone: { title: 38, label: 34, caption: 44, unit: 2 },
} as const satisfies Readonly<Record<FilmShape, unknown>>;

/** Lines of one text on a dark plate; pixels of the video. `x` of each line is its middle. */
export interface Plate {
  readonly box: Box;
  readonly lines: readonly { readonly text: string; readonly x: number; readonly baseline: number }[];
  readonly size: number;
}

/** As parts of the text's size. */
const PAD = { x: 0.5, y: 0.3 } as const;
const LINE = 1.25;
const BASELINE = 0.93;
const MARGIN = 0.6;
const SMALLEST = 0.6;

/** A picture's title in the upper left corner of its room; made smaller where it would not fit. */
export function titlePlate(text: string, room: Box, shape: FilmShape, measureText: MeasureText): Plate {
  const wanted = FILM_TEXT[shape].title;
  const most = room.width - 2 * (MARGIN + PAD.x) * wanted;
  const wide = measureText(text, fontOf(wanted, 600));
  const size = wide <= most ? wanted : Math.max(SMALLEST * wanted, (wanted * most) / wide);
  const at = { x: room.x + MARGIN * size, y: room.y + MARGIN * size };
  return plateOf([text], size, at, measureText);
}

/** The coach's words at the foot of the video, within 88 % of its width. */
export function captionPlate(text: string, shape: FilmShape, measureText: MeasureText): Plate {
  const { width, height } = FILM_SIZES[shape];
  const size = FILM_TEXT[shape].caption;
  const font = fontOf(size, 600);
  const lines = wrapText(text, width * 0.88 - 2 * PAD.x * size, (line) => measureText(line, font));
  const plate = plateOf(lines, size, { x: 0, y: 0 }, measureText);
  const { width: w, height: h } = plate.box;
  return moved(plate, (width - w) / 2, height - h - MARGIN * size);
}

function plateOf(
  lines: readonly string[],
  size: number,
  at: { readonly x: number; readonly y: number },
  measureText: MeasureText,
): Plate {
  const widest = Math.max(0, ...lines.map((line) => measureText(line, fontOf(size, 600))));
  const width = widest + 2 * PAD.x * size;
  const box = { ...at, width, height: lines.length * LINE * size + 2 * PAD.y * size };
  return {
    ...{ box, size },
    lines: lines.map((text, index) => ({
      text,
      x: at.x + width / 2,
      baseline: at.y + (PAD.y + index * LINE + BASELINE) * size,
    })),
  };
}

function moved({ box, lines, size }: Plate, x: number, y: number): Plate {
  return {
    box: { ...box, x: box.x + x, y: box.y + y },
    lines: lines.map((line) => ({ ...line, x: line.x + x, baseline: line.baseline + y })),
    size,
  };
}
