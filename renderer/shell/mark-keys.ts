import { say } from '../../core/model/say.ts';

/** What keys do with a mark; these are the same for everyone. */
export const MARK_KEYS = [
  [say`Enter`, say`accepts the point that is asked for, or deselects`],
  [say`Backspace`, say`goes back one point, or one frame of a path`],
  [say`Delete`, say`takes the selected mark away`],
  ['H', say`marks the selected point as hidden (guessed), or not`],
  [say`Esc`, say`cancels, deselects, puts the tool away`],
] as const;

/** What mouse, pen and fingers do beside the keys. */
export const HAND_KEYS = [
  [say`Space`, say`held, moves the picture with the mouse`],
  [say`Wheel`, say`zooms where the pointer is`],
  [say`Two fingers`, say`zoom and move the picture`],
  [say`Middle button`, say`held, moves the picture`],
  [say`Double click`, say`ends the spots of a circle`],
] as const;
