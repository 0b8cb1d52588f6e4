import { say } from '../model/say.ts';
import { VERDICT_WORDS } from '../measure/words/format.ts';
import type { Box } from './box.ts';
import {
  placeText,
  type PlacedPicture,
  type PlacedSwatch,
  type PlacedText,
  type SheetLayout,
  type TextStyle,
} from './placed.ts';
import type { PanelOrder, SheetRow } from './sheet-order.ts';
import { placeTable, type TableCell } from './sheet-table.ts';
import { NO_BREAK_SPACE, type MeasureText } from './text-wrap.ts';

/** Sizes are thought out at this width and scaled to the one that is ordered. */
const DESIGN_WIDTH = 1600;

/**
 * In pixels of a 1600 pixel sheet. Shown on a phone it is about 400 points wide, so 28 pixels of a reading are 7 points
 * there: about the smallest that is read without zooming.
 */
const SIZES = { name: 54, facts: 34, title: 36, caption: 28, reading: 28, note: 26, label: 26 } as const;
const MARGIN = 40;
const COLUMN_GAP = 28;
const SWATCH_UNIT = 1.7;
/** Stroke unit of the marks: `least` on a picture of no width, growing to `most` on one as wide as the sheet. */
const MARK_UNIT = { least: 1.15, most: 1.8 } as const;
const SWATCH_WIDTH = 56;
/** Highest picture, as a part of the sheet's width: alone in its row, and with other rows below. */
const PICTURE_HEIGHT = { oneRow: 0.92, manyRows: 0.7 } as const;
/** A single picture with a width to height below this has its texts beside it, and takes this part of the sheet's width. */
const BESIDE = { aspect: 0.9, part: 0.56 } as const;
/** Widest table of one picture's readings: on a longer line the eye loses its row. */
const WIDEST_READINGS = 900;

interface PanelText {
  readonly title: string;
  readonly facts: string;
}

/** Grows a sheet from the top down. */
export class SheetBuilder {
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

  /** One row: captions, pictures and readings, then its comparisons. */
  addRow(row: SheetRow, captions: readonly PanelText[], place: { first: number; alone: boolean }): void {
    const [only] = row.panels;
    const highest = this.#width * (place.alone ? PICTURE_HEIGHT.oneRow : PICTURE_HEIGHT.manyRows);
    if (only !== undefined && row.panels.length === 1 && aspectOf(only) < BESIDE.aspect)
      this.#addBeside(only, captions[0], place.first, highest);
    else this.#addColumns(row.panels, captions, place.first, highest);
    this.skip(12);
    this.#addComparisons(row);
    this.skip(24);
  }

  /** A picture on the left, its texts on the right. */
  #addBeside(panel: PanelOrder, text: PanelText | undefined, index: number, highest: number): void {
    const { x, width } = this.#inner;
    const top = this.#top;
    const size = fitted(sourceOf(panel), width * BESIDE.part, highest);
    const textX = x + size.width + this.#px(COLUMN_GAP);
    const textWidth = x + width - textX;
    const captionBottom = this.#addCaption(panel, text, textX, textWidth);
    const readingsBottom = this.#addReadings(panel, textX, captionBottom + this.#px(14), textWidth);
    this.#addPicture(panel, index, { x, y: top, ...size });
    this.#top = Math.max(top + size.height, readingsBottom);
  }

  /** Equal columns: captions end level, so that pictures start level; likewise the readings below them. */
  #addColumns(panels: readonly PanelOrder[], texts: readonly PanelText[], first: number, highest: number): void {
    const { x, width } = this.#inner;
    const gap = this.#px(COLUMN_GAP);
    const column = (width - gap * (panels.length - 1)) / panels.length;
    const cells = panels.map((panel, index) => ({
      panel,
      x: x + index * (column + gap),
      size: fitted(sourceOf(panel), column, highest),
    }));
    const captionBottoms = cells.map((cell, index) => this.#addCaption(cell.panel, texts[index], cell.x, column));
    const pictureTop = Math.max(...captionBottoms) + this.#px(14);
    const pictureBottom = pictureTop + Math.max(...cells.map((cell) => cell.size.height));
    const readingsTop = pictureBottom + this.#px(10);
    const readingsWidth = Math.min(column, this.#px(WIDEST_READINGS));
    for (const [index, { panel, x: left, size }] of cells.entries())
      this.#addPicture(panel, first + index, { x: left, y: pictureTop, ...size });
    this.#top = Math.max(
      pictureBottom,
      ...cells.map((cell) => this.#addReadings(cell.panel, cell.x, readingsTop, readingsWidth)),
    );
  }

  #addPicture(panel: PanelOrder, index: number, target: Box): void {
    const part = Math.min(1, target.width / this.#width);
    const unit = MARK_UNIT.least + (MARK_UNIT.most - MARK_UNIT.least) * part;
    this.#pictures.push({
      panel: index,
      source: sourceOf(panel),
      target,
      marks: panel.marks,
      keepFree: panel.keepFree ?? [],
      markUnit: this.#px(unit),
      labelSize: this.#px(SIZES.label),
    });
  }

  #addCaption(panel: PanelOrder, caption: PanelText | undefined, x: number, width: number): number {
    if (caption === undefined) return this.#top;
    const style = this.style('title', 600);
    const indent = panel.look === 'plain' ? 0 : this.#px(SWATCH_WIDTH + 16);
    const column = { x: x + indent, top: this.#top, width: width - indent };
    const title = placeText(caption.title, style, column, this.#measureText);
    if (indent > 0)
      this.#swatches.push({
        look: panel.look,
        x: x + this.#px(4),
        y: this.#top + style.size * 0.66,
        width: this.#px(SWATCH_WIDTH),
      });
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
    const head = [say`Reading`, say`Then`, say`Now`, say`Difference`, say`Verdict`];
    const heading = this.style('reading', 400, 'quiet');
    const plain = this.style('reading', 400);
    const strong = this.style('reading', 600);
    const rows = row.comparisons.map((each): TableCell[] => [
      { text: each.label, style: plain },
      { text: each.then, style: plain },
      { text: each.now, style: plain },
      { text: each.difference, style: strong },
      {
        text: VERDICT_WORDS[each.verdict].replaceAll(' ', NO_BREAK_SPACE),
        style: each.verdict === 'changed' ? strong : plain,
      },
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
      swatchUnit: this.#px(SWATCH_UNIT),
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

function aspectOf(panel: PanelOrder): number {
  const source = sourceOf(panel);
  return source.width / source.height;
}
