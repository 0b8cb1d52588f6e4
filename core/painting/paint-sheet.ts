import type { Box } from './box.ts';
import type { PaintContext } from './context.ts';
import { fontOf } from './styles.ts';
import { paint } from './paint.ts';
import type { Tone } from './placed.ts';
import type { SheetLayout } from './sheet-layout.ts';

/** Draws the part `source` of one panel's picture (picture coordinates) into `target` (target pixels). */
export type DrawPicture = (source: Box, target: Box) => void;

export const SHEET_COLOURS = { ground: '#FFFFFF', ink: '#15181B', quiet: '#4A5055', rule: '#C9CDD1' } as const;
const TONES: Readonly<Record<Tone, string>> = { ink: SHEET_COLOURS.ink, quiet: SHEET_COLOURS.quiet };

/** Paints a whole sheet; the context's transform maps its pixels one to one. `pictures` in the order of the panels. */
export function paintSheet(ctx: PaintContext, layout: SheetLayout, pictures: readonly DrawPicture[]): void {
  ctx.save();
  ctx.fillStyle = SHEET_COLOURS.ground;
  ctx.fillRect(0, 0, layout.width, layout.height);
  for (const { panel, source, target, marks, keepFree, markUnit, labelSize } of layout.pictures) {
    const scale = target.width / source.width;
    ctx.save();
    ctx.beginPath();
    ctx.rect(target.x, target.y, target.width, target.height);
    ctx.clip();
    pictures[panel]?.(source, target);
    ctx.translate(target.x, target.y);
    ctx.scale(scale, scale);
    ctx.translate(-source.x, -source.y);
    paint(ctx, marks, { scale, unit: markUnit, textSize: labelSize, visible: source, keepFree });
    ctx.restore();
  }
  ctx.fillStyle = SHEET_COLOURS.rule;
  for (const rule of layout.rules) ctx.fillRect(rule.x, rule.y, rule.width, rule.height);
  for (const { look, x, y, width } of layout.swatches) {
    const sample = {
      kind: 'segment',
      a: { x, y },
      b: { x: x + width, y },
      look,
      weight: 'line',
      ends: 'plain',
    } as const;
    paint(ctx, [sample], { scale: 1, unit: layout.swatchUnit });
  }
  ctx.textBaseline = 'alphabetic';
  for (const text of layout.texts) {
    ctx.font = fontOf(text.size, text.weight);
    ctx.textAlign = text.align;
    ctx.fillStyle = TONES[text.tone];
    ctx.fillText(text.text, text.x, text.baseline);
  }
  ctx.restore();
}
