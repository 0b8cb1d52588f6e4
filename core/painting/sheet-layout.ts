import { loweredFirst } from '../model/say.ts';
import { captionsOf } from '../report/captions.ts';
import { liesIn } from './box.ts';
import type { SheetLayout } from './placed.ts';
import { SheetBuilder } from './sheet-builder.ts';
import { HIDDEN_POINT_NOTE, type SheetOrder } from './sheet-order.ts';
import type { MeasureText } from './text-wrap.ts';

export type { SheetLayout } from './placed.ts';

const SMALLEST_WIDTH = 320;

/**
 * Puts the ordered panels on a sheet: head, then row by row captions, pictures, readings and comparisons, then notes and
 * cautions. Pure; text widths come from `measureText`. Texts wrap and the sheet grows downwards; nothing is cut.
 * @throws Error on an order that makes no sense: no panel, no size, a crop outside its picture.
 */
export function layoutSheet(order: SheetOrder, measureText: MeasureText): SheetLayout {
  checkOrder(order);
  const sheet = new SheetBuilder(order.width, measureText);
  const captions = captionsOf(order);
  sheet.write(titleOf(captions.name, order.headline ?? null), sheet.style('name', 600));
  sheet.write(captions.facts, sheet.style('facts', 400));
  sheet.skip(22);

  let panel = 0;
  for (const row of order.rows) {
    sheet.addRow(row, captions.panels.slice(panel, panel + row.panels.length), {
      first: panel,
      alone: order.rows.length === 1,
    });
    panel += row.panels.length;
  }
  const items = order.rows.flatMap((row) => row.panels).flatMap((each) => each.marks);
  const hidden = items.some((item) => item.kind === 'point' && item.hidden);
  sheet.addFoot(hidden ? [...order.notes, HIDDEN_POINT_NOTE] : order.notes, order.cautions);
  return sheet.finish();
}

/** "Robin, shoulders to spine at top: 105° → 90°, changed". */
function titleOf(name: string, headline: string | null): string {
  if (name === '' || headline === null) return headline ?? name;
  return `${name}, ${loweredFirst(headline)}`;
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
