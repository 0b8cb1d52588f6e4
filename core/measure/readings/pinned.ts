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
  const isPinned = (key: ReadingKey): boolean =>
    pins.some(
      (pin) => sameReading(pin, key) || (key.aspect === 'change' && sameReading(pin, { ...key, aspect: 'value' })),
    );
  const chosen = cell.filter(isPinned);
  return chosen.length === 0 ? cell : chosen;
}
