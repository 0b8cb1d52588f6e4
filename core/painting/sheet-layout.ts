import type { Box } from './box.ts';
import { liesIn } from './box.ts';
import type { DrawItem } from './draw-item.ts';
import { placeText, type PlacedSwatch, type PlacedText, type TextStyle } from './placed.ts';
import { captionsOf } from './sheet-captions.ts';
import { HIDDEN_POINT_NOTE, type PanelOrder, type SheetOrder, type SheetRow } from './sheet-order.ts';
import { placeTable, type TableCell } from './sheet-table.ts';
import type { MeasureText } from './text-wrap.ts';

/** Where one picture goes. Both boxes have the same aspect, so nothing is ever distorted. */
export interface PlacedPicture {
  /** Which panel, counted from 0 row by row. */
  readonly panel: number;
  /** The part of the picture, in picture coordinates. */
  readonly source: Box;
  /** Where it lies on the sheet, in target pixels. */
  readonly target: Box;
  readonly marks: readonly DrawItem[];
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
  /** Target pixels a stroke unit of the marks, and the height of their labels. */
  readonly markUnit: number;
  readonly labelSize: number;
}

/** Sizes are thought out at this width and scaled to the one that is ordered. */
const DESIGN_WIDTH = 1600;
const SMALLEST_WIDTH = 320;

/**
 * In pixels of a 1600 pixel sheet. Shown on a phone it is about 400 points wide, so 28 pixels of a reading are 7 points
 * there: about the smallest that is read without zooming.
 */
const SIZES = { name: 54, facts: 34, title: 36, caption: 28, reading: 28, note: 26, label: 26 } as const;
const MARGIN = 40;
const COLUMN_GAP = 28;
const MARK_UNIT = 1.7;
const SWATCH_WIDTH = 56;
/** Highest picture, as a part of the sheet's width: alone in its row, and with other rows below. */
const PICTURE_HEIGHT = { oneRow: 0.92, manyRows: 0.62 } as const;
/** A single picture narrower than this part of the sheet has its texts beside it instead of below. */
const BESIDE_BELOW = 0.62;

/**
 * Puts the ordered panels on a sheet: head, then row by row captions, pictures, readings and comparisons, then notes and
 * cautions. Pure; text widths come from `measureText`. Texts wrap and the sheet grows downwards; nothing is cut.
 * @throws Error on an order that makes no sense: no panel, no size, a crop outside its picture.
 */
export function layoutSheet(order: SheetOrder, measureText: MeasureText): SheetLayout {
  checkOrder(order);
  const sheet = new SheetBuilder(order.width, measureText);
  const captions = captionsOf(order);
  sheet.write(captions.name, sheet.style('name', 600));
  sheet.write(captions.facts, sheet.style('facts', 400));
  sheet.skip(22);

  let panel = 0;
  const highest = order.rows.length === 1 ? PICTURE_HEIGHT.oneRow : PICTURE_HEIGHT.manyRows;
  for (const row of order.rows) {
    sheet.addRow(row, captions.panels.slice(panel, panel + row.panels.length), panel, highest);
    panel += row.panels.length;
  }
  const items = order.rows.flatMap((row) => row.panels).flatMap((each) => each.marks);
  const hidden = items.some((item) => item.kind === 'point' && item.hidden);
  sheet.addFoot(hidden ? [...order.notes, HIDDEN_POINT_NOTE] : order.notes, order.cautions);
  return sheet.finish();
}

function checkOrder(order: SheetOrder): void {
  if (!(order.width >= SMALLEST_WIDTH && Number.isFinite(order.width)))
    throw new Error(`width must be at least ${SMALLEST_WIDTH} pixels, not ${order.width}`);
  if (order.rows.length === 0) throw new Error('rows must hold at least one row');
  for (const row of order.rows) {
    if (row.panels.length === 0) throw new Error('panels must hold at least one panel a row');
    for (const { picture, crop } of row.panels) {
      if (!(picture.width >= 1 && picture.height >= 1)) throw new Error('picture must be at least 1 x 1 pixels');
      if (crop === null) continue;
      if (!(crop.width > 0 && crop.height > 0)) throw new Error('crop must have a size');
      if (!liesIn(crop, { x: 0, y: 0, ...picture })) throw new Error('crop must lie inside its picture');
    }
  }
}

/** Grows a sheet from the top down. */
class SheetBuilder {
  readonly #width: number;
  readonly #measureText: MeasureText;
  /** Target pixels a design pixel. */
  readonly #scale: number;
  readonly #texts: PlacedText[] = [];
  readonly #pictures: PlacedPicture[] = [];
  readonly #swatches: PlacedSwatch[] = [];
  readonly #rules: Box[] = [];
  #top: number;

  constructor(width: number, measureText: MeasureText) {
    this.#width = Math.round(width);
    this.#measureText = measureText;
    this.#scale = width / DESIGN_WIDTH;
    this.#top = this.#px(30);
  }

  #px(designPixels: number): number {
    return designPixels * this.#scale;
  }

  get #inner(): { x: number; width: number } {
    return { x: this.#px(MARGIN), width: this.#width - 2 * this.#px(MARGIN) };
  }

  style(size: keyof typeof SIZES, weight: 400 | 600, tone: 'ink' | 'quiet' = 'ink'): TextStyle {
    return { size: this.#px(SIZES[size]), weight, tone };
  }

  skip(designPixels: number): void {
    this.#top += this.#px(designPixels);
  }

  write(text: string, style: TextStyle): void {
    const placed = placeText(text, style, { ...this.#inner, top: this.#top }, this.#measureText);
    this.#texts.push(...placed.texts);
    this.#top = placed.bottom;
  }

  addRow(row: SheetRow, captions: readonly { title: string; facts: string }[], first: number, highest: number): void {
    const { x, width } = this.#inner;
    const gap = this.#px(COLUMN_GAP);
    const column = (width - gap * (row.panels.length - 1)) / row.panels.length;
    const sizes = row.panels.map((panel) => fitted(sourceOf(panel), column, this.#width * highest));
    const [only] = sizes;
    const beside = row.panels.length === 1 && only !== undefined && only.width < width * BESIDE_BELOW;

    const cells = row.panels.map((panel, index) => {
      const left = x + index * (column + gap);
      const size = sizes[index] ?? { width: 0, height: 0 };
      const textX = beside ? left + size.width + gap : left;
      return {
        panel,
        size,
        left,
        textX,
        textWidth: beside ? width - size.width - gap : column,
        captionBottom: this.#addCaption(panel, captions[index], textX, beside ? width - size.width - gap : column),
      };
    });
    const below = Math.max(...cells.map((cell) => cell.captionBottom)) + this.#px(14);
    const pictureTop = beside ? this.#top : below;
    const pictureBottom = pictureTop + Math.max(...sizes.map((size) => size.height));
    const readingsTop = beside ? below : pictureBottom + this.#px(10);
    let bottom = pictureBottom;
    for (const [index, cell] of cells.entries()) {
      const pictureX = beside ? cell.left : cell.left + (column - cell.size.width) / 2;
      this.#pictures.push({
        panel: first + index,
        source: sourceOf(cell.panel),
        target: { x: pictureX, y: pictureTop, ...cell.size },
        marks: cell.panel.marks,
      });
      bottom = Math.max(bottom, this.#addReadings(cell.panel, cell.textX, readingsTop, cell.textWidth));
    }
    this.#top = bottom + this.#px(12);
    this.#addComparisons(row);
    this.skip(24);
  }

  #addCaption(panel: PanelOrder, caption: { title: string; facts: string } | undefined, x: number, width: number) {
    if (caption === undefined) return this.#top;
    const style = this.style('title', 600);
    const indent = panel.look === 'plain' ? 0 : this.#px(SWATCH_WIDTH + 16);
    const column = { x: x + indent, top: this.#top, width: width - indent };
    const title = placeText(caption.title, style, column, this.#measureText);
    if (indent > 0)
      this.#swatches.push({ look: panel.look, x, y: this.#top + style.size * 0.66, width: this.#px(SWATCH_WIDTH) });
    const below = { x, top: title.bottom, width };
    const facts = placeText(caption.facts, this.style('caption', 400, 'quiet'), below, this.#measureText);
    this.#texts.push(...title.texts, ...facts.texts);
    return facts.bottom;
  }

  #addReadings(panel: PanelOrder, x: number, top: number, width: number): number {
    const rows = panel.readings.map((reading) => [
      { text: reading.label, style: this.style('reading', 400) },
      { text: reading.value, style: this.style('reading', 600) },
    ]);
    return rows.length === 0 ? top : this.#addTable(rows, x, top, width);
  }

  #addComparisons(row: SheetRow): void {
    if (row.comparisons.length === 0) return;
    const head = ['Reading', 'Then', 'Now', 'Difference', 'Verdict'];
    const heading = this.style('reading', 400, 'quiet');
    const plain = this.style('reading', 400);
    const strong = this.style('reading', 600);
    const rows = row.comparisons.map((each): TableCell[] => [
      { text: each.label, style: plain },
      { text: each.then, style: plain },
      { text: each.now, style: plain },
      { text: each.difference, style: strong },
      { text: each.verdict, style: each.verdict === 'moved' ? strong : plain },
    ]);
    const { x, width } = this.#inner;
    this.#top = this.#addTable([head.map((text) => ({ text, style: heading })), ...rows], x, this.#top, width);
  }

  #addTable(rows: readonly (readonly TableCell[])[], x: number, top: number, width: number): number {
    const measures = { x, top, width, gap: this.#px(28), pad: this.#px(6), rule: Math.max(1, this.#px(1.5)) };
    const table = placeTable(rows, measures, this.#measureText);
    this.#texts.push(...table.texts);
    this.#rules.push(...table.rules);
    return table.bottom;
  }

  addFoot(notes: readonly string[], cautions: readonly string[]): void {
    const style = this.style('note', 400, 'quiet');
    for (const note of notes) this.write(note, style);
    if (cautions.length === 0) return;
    this.skip(10);
    this.#rules.push({ ...this.#inner, y: this.#top, height: Math.max(1, this.#px(1.5)) });
    this.skip(10);
    for (const caution of cautions) this.write(caution, style);
  }

  finish(): SheetLayout {
    return {
      width: this.#width,
      height: Math.ceil(this.#top + this.#px(28)),
      texts: this.#texts,
      pictures: this.#pictures,
      swatches: this.#swatches,
      rules: this.#rules,
      markUnit: this.#px(MARK_UNIT),
      labelSize: this.#px(SIZES.label),
    };
  }
}

function sourceOf(panel: PanelOrder): Box {
  return panel.crop ?? { x: 0, y: 0, ...panel.picture };
}

/** The largest size with the aspect of `source` within `width` and `height`. */
function fitted(source: Box, width: number, height: number): { width: number; height: number } {
  const scale = Math.min(width / source.width, height / source.height);
  return { width: source.width * scale, height: source.height * scale };
}
