import * as v from 'valibot';
import { say } from '../model/say.ts';
import { argument } from '../parse/argument.ts';
import { clipIndex as clipIndexSchema } from '../parse/clip-index.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { frameAtPts } from '../time/frame-table.ts';
import { keepFrames, numbersDiffer } from '../time/settle-index.ts';
import { readClipIndex, replaceClipIndex } from './clip-frames.ts';
import type { BookDatabase } from './database.ts';
import { rememberNumbers } from './earlier-numbers.ts';
import { markedFrames, moveFrames } from './move-frames.ts';
import { noSuch } from './no-such.ts';
import { flag } from './rows.ts';

export interface SettleOperations {
  /** Whether the clip's frame table was held against a decode of all of it. @throws AppError `no-such-record`. */
  isSettled(clipId: string): boolean;
  /**
   * Stores the frame table as a decode of the whole clip has settled it. Names and marks stay on their pictures: they
   * keep their time stamp and get the number that it has now. A frame that something hangs on is never lost: where the
   * settled table has none at that time, it is put back and counts as damaged. Answers whether any number changed.
   *
   * @throws AppError `no-such-record`.
   */
  settleClip(clipId: string, index: ClipIndex): boolean;
}

const settledRow = v.strictObject({ settled: flag });

export function settleOperations(database: BookDatabase): SettleOperations {
  return {
    isSettled(clipId) {
      const row = database.one(settledRow, 'SELECT settled FROM clip_frames WHERE clip_id = ?', clipId);
      if (row === null) throw noSuch('clip', clipId);
      return row.settled;
    },

    settleClip(clipId, index) {
      const given = argument(clipIndexSchema, index, say`the frame table`);
      return database.write(() => {
        const before = readClipIndex(database, clipId);
        const wanted = markedFrames(database, clipId).map(({ pts }) => pts);
        const settled = keepFrames(given, before, wanted);
        replaceClipIndex(database, clipId, settled, true);
        const count = settled.frames.length;
        database.run(
          `UPDATE clip SET frame_count = ?, rate_num = ?, rate_den = ?, kept_of = max(kept_of, kept_first + ?) WHERE id = ?`,
          ...[count, settled.nominalRate?.num ?? null, settled.nominalRate?.den ?? null, count, clipId],
        );
        if (!numbersDiffer(before.frames, settled.frames)) return false;
        moveFrames(database, clipId, ({ pts }) => frameAtPts(settled, pts));
        rememberNumbers(database, clipId, before.frames);
        return true;
      });
    },
  };
}
