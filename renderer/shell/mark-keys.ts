/** What keys do with a mark; these are the same for everyone. */
export const MARK_KEYS = [
  ['Enter', 'accepts the point that is asked for, or deselects'],
  ['Backspace', 'goes back one point, or one frame of a path'],
  ['Delete', 'takes the selected mark away'],
  ['H', 'marks the selected point as hidden (guessed), or not'],
  ['Esc', 'cancels, deselects, puts the tool away'],
] as const;

/** What mouse, pen and fingers do beside the keys. */
export const HAND_KEYS = [
  ['Space', 'held, moves the picture with the mouse'],
  ['Wheel', 'zooms where the pointer is'],
  ['Two fingers', 'zoom and move the picture'],
  ['Middle button', 'held, moves the picture'],
  ['Double click', 'ends the spots of a circle'],
] as const;
