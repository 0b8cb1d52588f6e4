import type { PicturePoint } from '../model/mark.ts';
import type { Box } from './box.ts';
import type { DrawItem } from './draw-item.ts';
import { fontOf, type FontWeight, type Style } from './styles.ts';
import { wrapText, type MeasureText } from './text-wrap.ts';

/** ink: what is read. quiet: what stands beside it; still above 7:1 on white. */
export type Tone = 'ink' | 'quiet';

export interface TextStyle {
  /** Target pixels. */
  readonly size: number;
  readonly weight: FontWeight;
  readonly tone: Tone;
}

/** One line of text with its place; all in target pixels. */
export interface PlacedText extends TextStyle {
  readonly text: string;
  /** Left edge when `align` is left, right edge when it is right. */
  readonly x: number;
  readonly baseline: number;
  readonly align: 'left' | 'right';
  /** The room it takes: its measured width by the height of its line. */
  readonly room: Box;
}

/** A short sample of a look's line, beside the words then and now. */
export interface PlacedSwatch {
  readonly look: Style;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** Where one picture goes. Both boxes have the same aspect, so nothing is ever distorted. */
export interface PlacedPicture {
  /** Which panel, counted from 0 row by row. */
  readonly panel: number;
  /** The part of the picture, in picture coordinates. */
  readonly source: Box;
  /** Where it lies on the sheet, in target pixels. */
  readonly target: Box;
  readonly marks: readonly DrawItem[];
  /** Places that no text should cover, in picture coordinates. */
  readonly keepFree: readonly PicturePoint[];
  /** Target pixels a stroke unit of the marks, and the height of their labels in target pixels. */
  readonly markUnit: number;
  readonly labelSize: number;
}

/** A sheet with everything in its place, in target pixels. */
export interface SheetLayout {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly PlacedText[];
  readonly pictures: readonly PlacedPicture[];
  readonly swatches: readonly PlacedSwatch[];
  /** Hairlines. */
  readonly rules: readonly Box[];
  /** Target pixels a stroke unit of the swatches. */
  readonly swatchUnit: number;
}

/** Text set in a column: the lines, and the first pixel row below them. */
export interface PlacedColumn {
  readonly texts: readonly PlacedText[];
  readonly bottom: number;
}

const LINE_HEIGHT = 1.28;
/** From the top of a line to its baseline, as a part of the size: room for a capital with two accents. */
const ASCENT = 0.98;

/** Sets a text into a column of `width` from `top` down. */
export function placeText(
  text: string,
  style: TextStyle,
  column: { readonly x: number; readonly top: number; readonly width: number; readonly align?: 'left' | 'right' },
  measureText: MeasureText,
): PlacedColumn {
  const font = fontOf(style.size, style.weight);
  const measure = (line: string) => measureText(line, font);
  const align = column.align ?? 'left';
  const height = style.size * LINE_HEIGHT;
  const texts = wrapText(text, column.width, measure).map((line, index): PlacedText => {
    const top = column.top + index * height;
    const width = measure(line);
    const x = align === 'left' ? column.x : column.x + column.width;
    const room = { x: align === 'left' ? x : x - width, y: top, width, height };
    return { ...style, text: line, x, baseline: top + ASCENT * style.size, align, room };
  });
  return { texts, bottom: column.top + texts.length * height };
}
