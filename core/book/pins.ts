import * as v from 'valibot';
import { say } from '../model/say.ts';
import { READING_IDS } from '../model/reading.ts';
import type { ReadingKey } from '../model/reading.ts';
import { argument } from '../parse/argument.ts';
import { pinnedReadings } from '../parse/reading-key.ts';
import { checkpoint } from '../parse/frames.ts';
import { view } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { noSuch } from './no-such.ts';

export interface PinOperations {
  /**
   * Says which readings of a swing stand on its stills, in this order; none = all of each checkpoint.
   * @throws AppError `bad-request`, `no-such-record`.
   */
  setPins(swingId: string, pins: readonly ReadingKey[]): void;
}

const pinRow = v.pipe(
  v.strictObject({
    reading: v.picklist(READING_IDS),
    aspect: v.picklist(['value', 'change']),
    view,
    checkpoint,
  }),
  v.transform(({ reading, ...rest }): ReadingKey => ({ id: reading, ...rest })),
);

export function pinOperations(database: BookDatabase): PinOperations {
  return {
    setPins(swingId, pins) {
      const checked = argument(pinnedReadings, pins, say`the pinned readings`);
      database.write(() => {
        if (database.one(v.unknown(), 'SELECT id FROM swing WHERE id = ?', swingId) === null)
          throw noSuch('swing', swingId);
        database.run('DELETE FROM pinned_reading WHERE swing_id = ?', swingId);
        for (const [position, { id, aspect, ...of }] of checked.entries())
          database.insert('pinned_reading', { swing_id: swingId, position, reading: id, aspect, ...of });
      });
    },
  };
}

/** In the order in which the coach chose them. */
export function pinsOf(database: BookDatabase, swingId: string): readonly ReadingKey[] {
  return database.all(
    pinRow,
    'SELECT reading, aspect, view, checkpoint FROM pinned_reading WHERE swing_id = ? ORDER BY position',
    swingId,
  );
}
