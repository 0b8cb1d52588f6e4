import { say } from '../model/say.ts';
import type { PhoneLine, PhoneWords } from '../report/phone-still.ts';
import { PHONE_SIZE } from '../report/still-file.ts';
import type { Box } from './box.ts';
import {
  placeText,
  type PlacedPicture,
  type PlacedSwatch,
  type PlacedText,
  type SheetLayout,
  type TextStyle,
} from './placed.ts';
import type { PanelOrder } from './sheet-order.ts';
import { fontOf } from './styles.ts';
import type { MeasureText } from './text-wrap.ts';

export interface PhoneOrder {
  /** Target pixels, > 0. */
  readonly width: number;
  /** One, or then and now. */
  readonly panels: readonly PanelOrder[];
  readonly words: PhoneWords;
}

/**
 * In pixels of a still 1080 wide. A phone shows it about 360 wide, a third of that: a capital of what matters (all but
 * `quiet`) is then 11 pixels high, since capitals of the face are 0.66 of its size.
 */
const SIZES = { headline: 62, line: 50, label: 50, quiet: 36 } as const;
const MARGIN = 44;
const GAP = 16;
const SWATCH_WIDTH = 64;
const SWATCH_UNIT = 2;
/** A stroke unit: a line is about as thick on the phone as on a screen. */
const MARK_UNIT = 2.5;
/** Least height of the pictures, as a part of the still's; where words leave less, the still grows. */
const LEAST_PICTURE = 0.19;
/** A single picture with a width to height below this has its lines beside it. */
const BESIDE = { aspect: 0.9, part: 0.52 } as const;

const THEN_NOW = { plain: '', then: say`Then`, now: say`Now` } as const;

/**
 * A still for a phone: headline, pictures of one size, at most three lines, foot. 4 by 5; the pictures take what the words leave.
 * Texts wrap, nothing is cut: where even the least pictures do not fit the still grows higher.
 * @throws Error without a panel.
 */
export function layoutPhone({ width, panels, words }: PhoneOrder, measureText: MeasureText): SheetLayout {
  const [only, second] = panels;
  if (only === undefined) throw new Error('panels must hold at least one panel');
  const scale = width / PHONE_SIZE.width;
  const isBeside = second === undefined && aspectOf(only) < BESIDE.aspect;
  const setting = { width, scale, measureText, panels, words };
  const named = place(setting, words.rest.names, isBeside);
  // Names of the rest are worth less than the picture.
  return named.isCramped && words.rest.names !== '' ? place(setting, words.rest.counts, isBeside).layout : named.layout;
}

interface Setting extends PhoneOrder {
  /** Target pixels a design pixel. */
  readonly scale: number;
  readonly measureText: MeasureText;
}

/** From this height of the pictures on, as a part of the still's, names of the rest have room. */
const AMPLE_PICTURE = 0.38;

function place(setting: Setting, rest: string, isBeside: boolean): { layout: SheetLayout; isCramped: boolean } {
  const { width, scale, measureText, panels, words } = setting;
  const px = (design: number): number => design * scale;
  const style = (size: keyof typeof SIZES, weight: 400 | 600, tone: 'ink' | 'quiet' = 'ink'): TextStyle => ({
    size: px(SIZES[size]),
    weight,
    tone,
  });
  const column = { x: px(MARGIN), width: width - 2 * px(MARGIN) };
  const set = (text: string, textStyle: TextStyle, top: number, within = column) =>
    placeText(text, textStyle, { ...within, top }, measureText);

  const head = set(words.headline, style('headline', 600), px(34));
  const facts = set(words.facts, style('quiet', 400, 'quiet'), head.bottom + px(4));
  const tags = tagsOf(setting, facts.bottom + px(14), column);
  const picturesTop = tags.bottom + px(12);

  // What stands below is set twice: first to know how high it is.
  const below = (top: number, within: { x: number; width: number }) => {
    const lines = linesBelow(setting, top, within);
    const more =
      rest === ''
        ? { texts: [], bottom: lines.bottom }
        : set(rest, style('quiet', 400, 'quiet'), lines.bottom + px(8), within);
    return { lines, more, bottom: more.bottom };
  };
  const foot = (top: number) => {
    const name = set(words.foot, style('quiet', 600, 'quiet'), top);
    const caution = set(words.caution, style('quiet', 400, 'quiet'), name.bottom);
    return { texts: [...name.texts, ...caution.texts], bottom: caution.bottom };
  };
  const footHeight = foot(0).bottom + px(30);
  const least = Math.round(PHONE_SIZE.height * scale);
  const leastPicture = least * LEAST_PICTURE;
  const pictureWidth = isBeside
    ? column.width * BESIDE.part
    : (column.width - px(GAP) * (panels.length - 1)) / panels.length;
  const besides = isBeside ? null : below(0, column);
  const room = least - footHeight - px(14) - picturesTop - (besides === null ? 0 : besides.bottom + px(16));
  const sizes = panels.map((panel) => fitted(sourceOf(panel), pictureWidth, Math.max(room, leastPicture)));
  const tallest = Math.max(...sizes.map((size) => size.height));
  const pictures = panels.map((panel, index): PlacedPicture => {
    const size = sizes[index] ?? { width: 0, height: 0 };
    const left = column.x + index * (pictureWidth + px(GAP));
    return {
      panel: index,
      source: sourceOf(panel),
      target: { x: left, y: picturesTop, ...size },
      marks: panel.marks,
      keepFree: panel.keepFree ?? [],
      markUnit: px(MARK_UNIT),
      labelSize: px(SIZES.label),
    };
  });
  const besideX = column.x + (sizes[0]?.width ?? 0) + px(28);
  const under = isBeside
    ? below(picturesTop, { x: besideX, width: column.x + column.width - besideX })
    : below(picturesTop + tallest + px(16), column);
  const wordsEnd = isBeside ? Math.max(under.bottom, picturesTop + tallest) : under.bottom;
  const height = Math.max(least, Math.ceil(wordsEnd + px(14) + footHeight));
  const end = foot(height - footHeight);
  const layout: SheetLayout = {
    width: Math.round(width),
    height,
    texts: [...head.texts, ...facts.texts, ...tags.texts, ...under.lines.texts, ...under.more.texts, ...end.texts],
    pictures,
    swatches: tags.swatches,
    rules: under.lines.rules,
    swatchUnit: px(SWATCH_UNIT),
  };
  return { layout, isCramped: height > least || tallest < least * AMPLE_PICTURE };
}

/** Above each picture of two: then or now, with its line, and its day. */
function tagsOf({ panels, scale, measureText }: Setting, top: number, column: { x: number; width: number }) {
  if (panels.length < 2) return { texts: [], swatches: [], bottom: top - 14 * scale };
  const px = (design: number): number => design * scale;
  const width = (column.width - px(GAP) * (panels.length - 1)) / panels.length;
  const texts: PlacedText[] = [];
  const swatches: PlacedSwatch[] = [];
  let bottom = top;
  for (const [index, { look, caption }] of panels.entries()) {
    const x = column.x + index * (width + px(GAP));
    const size = px(SIZES.line);
    swatches.push({ look, x: x + px(6), y: top + 0.66 * size, width: px(SWATCH_WIDTH) });
    const left = x + px(SWATCH_WIDTH + 22);
    const word = placeText(THEN_NOW[look], { size, weight: 600, tone: 'ink' }, { x: left, top, width }, measureText);
    const wordWidth = Math.max(0, ...word.texts.map((text) => text.room.width));
    const dayLeft = left + wordWidth + px(14);
    const quiet = { size: px(SIZES.quiet), weight: 400, tone: 'quiet' } as const;
    // Day and word stand on one line.
    const dayTop = top + 0.98 * (size - quiet.size);
    const day = placeText(caption.date, quiet, { x: dayLeft, top: dayTop, width: x + width - dayLeft }, measureText);
    texts.push(...word.texts, ...day.texts);
    bottom = Math.max(bottom, word.bottom, day.bottom);
  }
  return { texts, swatches, bottom };
}

/** A line to a row: name, number, verdict; where they have no room beside each other, the number stands below the name. */
function linesBelow({ words, scale, measureText }: Setting, top: number, { x, width }: { x: number; width: number }) {
  const px = (design: number): number => design * scale;
  const plain = { size: px(SIZES.line), weight: 400, tone: 'ink' } as const;
  const strong = { ...plain, weight: 600 } as const;
  const [gap, pad] = [px(24), px(8)];
  const widthOf = (text: string, { size, weight }: TextStyle): number => measureText(text, fontOf(size, weight));
  const styleOf = ({ isStrong }: PhoneLine): TextStyle => (isStrong ? strong : plain);
  const verdicts = words.lines.map((line) => (line.verdict === '' ? 0 : widthOf(line.verdict, styleOf(line)) + gap));
  const verdictColumn = Math.max(0, ...verdicts);
  const texts: PlacedText[] = [];
  const rules: Box[] = [];
  let bottom = top;
  for (const [index, line] of words.lines.entries()) {
    if (index > 0) rules.push({ x, y: bottom, width, height: Math.max(1, px(2)) });
    const rowTop = bottom + pad;
    const set = (text: string, style: TextStyle, column: Partial<Parameters<typeof placeText>[2]>) =>
      placeText(text, style, { x, top: rowTop, width, ...column }, measureText);
    const own = verdicts[index] ?? 0;
    const labelWidth = widthOf(line.label, plain);
    if (labelWidth + gap + widthOf(line.number, strong) + verdictColumn <= width) {
      const label = set(line.label, plain, {});
      const number = set(line.number, strong, { width: width - verdictColumn, align: 'right' });
      const verdict = set(line.verdict, styleOf(line), { align: 'right' });
      texts.push(...label.texts, ...number.texts, ...verdict.texts);
      bottom = label.bottom + pad;
      continue;
    }
    // The verdict stands beside the name where it has room there, else beside the number, else below.
    const besideName = labelWidth + own <= width;
    const label = set(line.label, plain, {});
    const number = set(line.number, strong, { top: label.bottom });
    const besideNumber = number.texts.length === 1 && widthOf(line.number, strong) + own <= width;
    const verdict = set(line.verdict, styleOf(line), {
      top: besideName ? rowTop : besideNumber ? label.bottom : number.bottom,
      align: besideName || besideNumber ? 'right' : 'left',
    });
    texts.push(...label.texts, ...number.texts, ...verdict.texts);
    bottom = Math.max(number.bottom, verdict.bottom) + pad;
  }
  return { texts, rules, bottom };
}

function sourceOf({ crop, picture }: PanelOrder): Box {
  return crop ?? { x: 0, y: 0, ...picture };
}

function aspectOf(panel: PanelOrder): number {
  const { width, height } = sourceOf(panel);
  return width / height;
}

function fitted(source: Box, width: number, height: number): { width: number; height: number } {
  const scale = Math.min(width / source.width, height / source.height);
  return { width: source.width * scale, height: source.height * scale };
}
