/** Width of a text in target pixels when set in a canvas font. */
export type MeasureText = (text: string, font: string) => number;

export const NO_BREAK_SPACE = '\u00A0';

/** Keeps a number and its ± on one line. */
export function keptTogether(text: string): string {
  return text.replaceAll(' ± ', `${NO_BREAK_SPACE}±${NO_BREAK_SPACE}`);
}

/**
 * Breaks a text into lines no wider than `width`: at spaces, and inside a word only when it is wider than a line by
 * itself. Nothing is left out; a line holds at least one character, however narrow `width` is. An empty text gives no line.
 */
export function wrapText(text: string, width: number, measure: (text: string) => number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of keptTogether(text).split(/[ \t\n]+/)) {
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (measure(longer) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = brokenWord(word, width, measure);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** A word cut into pieces that fit; surrogate pairs and the like stay whole. */
function brokenWord(word: string, width: number, measure: (text: string) => number): readonly string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && measure(piece + character) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  pieces.push(piece);
  return pieces;
}
