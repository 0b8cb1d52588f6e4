import { settings } from '../shell/state/settings.ts';

/** CSS pixels at the usual size of text. */
const LABEL_SIZE = 15;
const USUAL_TEXT = 100;

/** Height of the text beside marks on the bench, in device pixels: it grows with all other text. */
export function labelSize(ratio: number): number {
  return (LABEL_SIZE * ratio * settings.get().textSize) / USUAL_TEXT;
}
