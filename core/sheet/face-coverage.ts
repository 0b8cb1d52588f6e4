/**
 * The characters that the registered files of the type face are cut for: Latin, Vietnamese, Greek, Cyrillic, the signs of
 * numbers (from the ranges the font package states in its style sheets).
 */
const COVERED: readonly (readonly [number, number])[] = [
  [0x0000, 0x02d7],
  [0x02d8, 0x02ff],
  [0x0300, 0x0304],
  [0x0308, 0x0309],
  [0x0323, 0x0323],
  [0x0329, 0x0329],
  [0x0370, 0x052f],
  [0x1d00, 0x1dbf],
  [0x1e00, 0x1fff],
  [0x2000, 0x206f],
  [0x20a0, 0x20c4],
  [0x2122, 0x2122],
  [0x2191, 0x2193],
  [0x2212, 0x2212],
];

/** The texts that hold a character which the type face does not have, each once. */
export function textsOutsideFace(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)].filter((text) => [...text].some((character) => !isCovered(character)));
}

function isCovered(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return COVERED.some(([first, last]) => code >= first && code <= last);
}
