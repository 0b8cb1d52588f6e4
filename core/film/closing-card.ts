import { say } from '../model/say.ts';
import { isolated } from '../model/isolated.ts';
import type { TalkClosing } from '../model/talk.ts';
import { placeText, type PlacedText } from '../painting/placed.ts';
import type { MeasureText } from '../painting/text-wrap.ts';
import { FILM_SIZES, type FilmShape } from '../talk/film-plan.ts';

/** What the last picture says. */
export interface CardContent extends TalkClosing {
  /** The only name that is ever shown. */
  readonly firstName: string;
  /** Always there, never empty. */
  readonly cautions: readonly string[];
}

/** Part of every closing card, where a drill or a posture is advised. */
export const FILM_CAUTIONS: readonly string[] = [
  say`General coaching advice, not medical advice. Warm up first and swing well within comfort.`,
  say`Make sure nobody, above all no child, stands near the club.`,
  say`If anything hurts, stop and see a doctor or physiotherapist.`,
];

type Part = 'head' | 'title' | 'line' | 'caution';

/** Pixels of the video; see FILM_TEXT. */
const SIZES = {
  wide: { head: 76, title: 60, line: 60, caution: 56, margin: 72 },
  phone: { head: 60, title: 46, line: 44, caution: 36, margin: 72 },
} as const satisfies Readonly<Record<FilmShape, Readonly<Record<Part | 'margin', number>>>>;
const SPACE_BEFORE: Readonly<Record<Part, number>> = { head: 0, title: 0.6, line: 0.12, caution: 0.3 };
/** What does not fit is made smaller, step by step; a text of the longest kind fits at the last. */
const SMALLER = 0.94;
const SMALLEST = 0.25;
/** Letters smaller than this part of their size are hard to read on a phone. */
const READABLE = 0.85;

interface Paragraph {
  readonly part: Part;
  readonly text: string;
}

/** One picture of text, in its place. */
export interface CardPage {
  readonly texts: readonly PlacedText[];
  /** All that is to be read on it, for how long it stands. */
  readonly words: string;
}

/**
 * What the last picture says, in the middle of its height. What would be too small to read on one goes on two: key thoughts,
 * then the drill, each with the cautions.
 */
export function layoutCard(content: CardContent, shape: FilmShape, measureText: MeasureText): readonly CardPage[] {
  const whole = layoutPage(content, shape, measureText);
  const isTwofold = content.thoughts.length > 0 && content.drill !== null;
  if (whole.scale >= READABLE || !isTwofold) return [whole];
  return [
    layoutPage({ ...content, drill: null }, shape, measureText),
    layoutPage({ ...content, thoughts: [] }, shape, measureText),
  ];
}

function layoutPage(content: CardContent, shape: FilmShape, measureText: MeasureText): CardPage & { scale: number } {
  const { height } = FILM_SIZES[shape];
  const margin = SIZES[shape].margin;
  const words = paragraphsOf(content)
    .map(({ text }) => text)
    .join(' ');
  for (let scale = 1; ; scale *= SMALLER) {
    const placed = place(content, shape, scale, measureText);
    const bottom = Math.max(...placed.map(({ room }) => room.y + room.height));
    if (bottom > height - 2 * margin && scale > SMALLEST) continue;
    const down = Math.max(margin, (height - bottom) / 2);
    const texts = placed.map((text) => ({
      ...text,
      baseline: text.baseline + down,
      room: { ...text.room, y: text.room.y + down },
    }));
    return { texts, words, scale };
  }
}

function place(content: CardContent, shape: FilmShape, scale: number, measureText: MeasureText): PlacedText[] {
  const { margin, ...sizes } = SIZES[shape];
  const column = { x: margin, width: FILM_SIZES[shape].width - 2 * margin };
  let top = 0;
  return paragraphsOf(content).flatMap(({ part, text }) => {
    const size = sizes[part] * scale;
    top += SPACE_BEFORE[part] * size;
    const weight = part === 'line' || part === 'caution' ? 400 : 600;
    const placed = placeText(
      text,
      { size, weight, tone: part === 'caution' ? 'quiet' : 'ink' },
      { ...column, top },
      measureText,
    );
    top = placed.bottom;
    return placed.texts;
  });
}

function paragraphsOf({ firstName, thoughts, drill, cautions }: CardContent): readonly Paragraph[] {
  const titled = (title: string, lines: readonly string[]): Paragraph[] =>
    lines.length === 0
      ? []
      : [{ part: 'title', text: title }, ...lines.map((text): Paragraph => ({ part: 'line', text }))];
  const numbered = (lines: readonly string[]): string[] =>
    lines.length < 2 ? [...lines] : lines.map((line, index) => `${index + 1}. ${line}`);
  return [
    { part: 'head', text: isolated(firstName) },
    ...titled(thoughts.length === 1 ? say`Key thought` : say`Key thoughts`, numbered(thoughts)),
    ...(drill === null ? [] : [{ part: 'title', text: say`Drill: ${drill.title}` } as const]),
    ...(drill === null ? [] : numbered(drill.steps).map((text): Paragraph => ({ part: 'line', text }))),
    ...cautions.map((text): Paragraph => ({ part: 'caution', text })),
  ];
}
