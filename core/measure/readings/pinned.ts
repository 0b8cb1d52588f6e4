import type { ReadingKey } from '../../model/reading.ts';
import { sameReading } from '../../model/reading.ts';

/**
 * The readings of one cell (one view at one checkpoint) that stand on its still: those that the coach pinned, in the order
 * of the list, or all where none of the cell is pinned. A pin of a value brings its change since address along, which
 * stands on the same line.
 */
export function readingsToShow<Key extends ReadingKey>(
  cell: readonly Key[],
  pins: readonly ReadingKey[],
): readonly Key[] {
  const chosen = cell.filter((key) => isPinned(key, pins));
  return chosen.length === 0 ? cell : chosen;
}

/** Whether a reading is pinned, or is the change of one that is. */
export function isPinned(key: ReadingKey, pins: readonly ReadingKey[]): boolean {
  return pins.some(
    (pin) => sameReading(pin, key) || (key.aspect === 'change' && sameReading(pin, { ...key, aspect: 'value' })),
  );
}
