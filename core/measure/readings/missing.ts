import type { MissingReading, ReadingKey } from '../../model/reading.ts';

const NOTHING = { points: [], checkpoints: [], headBox: false } as const;

/** A reading that is not there, and what to place or name for it; nothing unless told. */
export function missing(
  key: ReadingKey,
  reason: MissingReading['reason'],
  needs: Partial<MissingReading['needs']> = {},
): MissingReading {
  return { ...key, state: 'missing', reason, needs: { ...NOTHING, ...needs } };
}
