import { inFigures } from '../model/language.ts';
import { createCanvas } from '@napi-rs/canvas';
import { say } from '../model/say.ts';
import { writeWholeFile } from '../files/write-whole-file.ts';
import { AppError } from '../model/errors.ts';
import { isolated } from '../model/isolated.ts';
import { paintSheet } from '../painting/paint-sheet.ts';
import { layoutPhone } from '../painting/phone-layout.ts';
import { layoutSheet, type SheetLayout } from '../painting/sheet-layout.ts';
import type { PanelOrder, SheetOrder, SheetRow } from '../painting/sheet-order.ts';
import type { MeasureText } from '../painting/text-wrap.ts';
import { STILL_CAUTIONS } from '../report/captions.ts';
import type { PhoneWords } from '../report/phone-still.ts';
import { isStillWidth, MAIL_BYTES, STILL_WIDTH, type StillFormat } from '../report/still-file.ts';
import { encodeJpeg } from './encode-jpeg.ts';
import { textsOutsideFace } from './face-coverage.ts';
import { registerFonts } from './fonts.ts';
import { canvasOf, drawerOf, loadPicture, type DecodedPicture } from './load-picture.ts';
import type { Raster } from './raster.ts';

export interface StillPanel extends PanelOrder {
  readonly picture: DecodedPicture;
}

export interface StillRow extends SheetRow {
  readonly panels: readonly StillPanel[];
}

export interface StillOrder {
  readonly rows: readonly StillRow[];
  readonly headline?: string | null;
  readonly notes: readonly string[];
  /** Laid out for a phone: all that is said. The panels of the first row stand there; notes and cautions are left out. */
  readonly phone?: PhoneWords | null;
  /** Default: STILL_CAUTIONS. */
  readonly cautions?: readonly string[];
  /** Pixels, within STILL_WIDTH; its usual one by default. */
  readonly width?: number;
  readonly format: StillFormat;
  /** Where to write; its folder must exist. */
  readonly path: string;
  /** Whether a file that is already there may be replaced. Default: no. */
  readonly overwrite?: boolean;
  /**
   * Largest file, in bytes. Default: of a JPEG 1,000,000, so that a handful goes by mail; of a PNG none, which is there to
   * be exact.
   */
  readonly mostBytes?: number;
}

/** A still as the bytes of its file. */
export interface EncodedStill {
  readonly bytes: Uint8Array;
  /** Pixels of the picture. */
  readonly width: number;
  readonly height: number;
  /** As `WrittenStill.note`. */
  readonly note: string | null;
}

export interface WrittenStill {
  readonly path: string;
  /** Pixels of the file. */
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  readonly format: StillFormat;
  /** What had to be given up to stay within the size, how large it is, or what to check, in sentences; null when nothing. */
  readonly note: string | null;
}

const DEFAULT_MOST_BYTES: Readonly<Record<StillFormat, number>> = { jpeg: MAIL_BYTES, png: Infinity };
/** A JPEG may be 65,535 high, but what a canvas and a phone can open ends far earlier. */
const MOST_HEIGHT = 16_000;

/**
 * Paints a lesson sheet and writes it, whole or not at all. A PNG holds every pixel as it was painted (sRGB, said so in
 * the file). To stay within a size, the quality of a JPEG is lowered first, then the sheet is made narrower.
 * @throws AppError `file-exists`, `disk-full`, `not-writable`, `runtime-missing` (type face), `bad-arguments` (too long).
 */
export async function writeStill(order: StillOrder): Promise<WrittenStill> {
  const { bytes, width, height, note } = await encodeStill(order);
  await writeWholeFile(order.path, bytes, { overwrite: order.overwrite ?? false });
  return { path: order.path, width, height, bytes: bytes.length, format: order.format, note };
}

/** A still as the bytes of its file, within the ordered size. */
export async function encodeStill(order: Omit<StillOrder, 'path' | 'overwrite'>): Promise<EncodedStill> {
  const wanted = order.width ?? STILL_WIDTH.usual;
  if (!isStillWidth(wanted))
    throw new AppError(
      'bad-arguments',
      say`A still is ${STILL_WIDTH.narrowest} to ${STILL_WIDTH.widest} pixels wide, not ${wanted}.`,
    );
  const mostBytes = order.mostBytes ?? DEFAULT_MOST_BYTES[order.format];
  let width = wanted;
  while (width >= STILL_WIDTH.narrowest) {
    const raster = await paintStill({ ...order, cautions: order.cautions ?? STILL_CAUTIONS, width });
    const bytes = order.format === 'png' ? await canvasOf(raster).encode('png') : await encodeJpeg(raster, mostBytes);
    if (bytes.length <= mostBytes) {
      const note = noteOf(width < wanted ? { wanted, width } : null, bytes.length, namesOutsideFace(order.rows));
      return { bytes, width: raster.width, height: raster.height, note };
    }
    // Bytes grow about as the area does; a little less than that, so that the next width usually fits.
    width = Math.floor(width * Math.min(0.95, 0.97 * Math.sqrt(mostBytes / bytes.length)));
  }
  throw new AppError('bad-arguments', say`This still does not fit into ${mostBytes} bytes. Choose fewer checkpoints.`);
}

/** Paints a sheet to pixels. */
export async function paintStill(
  order: Omit<SheetOrder, 'rows'> & Pick<StillOrder, 'phone' | 'rows'>,
): Promise<Raster> {
  registerFonts();
  const layout = layoutOf(order);
  if (layout.height > MOST_HEIGHT)
    throw new AppError(
      'bad-arguments',
      say`This still would be too long to open. Choose fewer checkpoints for one file.`,
    );
  const canvas = createCanvas(layout.width, layout.height);
  const ctx = canvas.getContext('2d');
  ctx.lang = 'en';
  const panels = order.rows.flatMap((row) => row.panels);
  const loaded = await Promise.all(panels.map((panel, index) => loadPicture(panel.picture, scaleOf(layout, index))));
  paintSheet(
    ctx,
    layout,
    loaded.map((picture) => drawerOf(ctx, picture)),
  );
  const { data } = ctx.getImageData(0, 0, layout.width, layout.height);
  return {
    width: layout.width,
    height: layout.height,
    rgba: new Uint8Array(data.buffer, data.byteOffset, data.length),
  };
}

function layoutOf({ phone, ...order }: Omit<SheetOrder, 'rows'> & Pick<StillOrder, 'phone' | 'rows'>): SheetLayout {
  if (phone === undefined || phone === null) return layoutSheet(order, measureText());
  return layoutPhone({ width: order.width, panels: order.rows[0]?.panels ?? [], words: phone }, measureText());
}

function scaleOf(layout: SheetLayout, panel: number): number {
  const placed = layout.pictures[panel];
  return placed === undefined ? 1 : placed.target.width / placed.source.width;
}

function measureText(): MeasureText {
  const ctx = createCanvas(1, 1).getContext('2d');
  ctx.lang = 'en';
  return (text, font) => {
    ctx.font = font;
    return ctx.measureText(text).width;
  };
}

function namesOutsideFace(rows: readonly StillRow[]): readonly string[] {
  const captions = rows.flatMap((row) => row.panels).map((panel) => panel.caption);
  return textsOutsideFace(captions.flatMap((caption) => [caption.firstName, caption.club]));
}

function noteOf(
  narrowed: { wanted: number; width: number } | null,
  bytes: number,
  foreign: readonly string[],
): string | null {
  const sentences: string[] = [];
  if (narrowed !== null)
    sentences.push(say`To stay within the size: ${narrowed.width} pixels wide instead of ${narrowed.wanted}.`);
  if (bytes > MAIL_BYTES)
    sentences.push(
      say`${inFigures((bytes / 1e6).toFixed(1))} MB, every colour exact. A JPEG is smaller and better for mail.`,
    );
  if (foreign.length > 0)
    sentences.push(
      say`The type face lacks letters of ${foreign.map(isolated).join(', ')}; check how they look on the still.`,
    );
  return sentences.length === 0 ? null : sentences.join(' ');
}
