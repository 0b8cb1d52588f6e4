import * as v from 'valibot';
import { say } from '../model/say.ts';
import { argument } from '../parse/argument.ts';
import { clipIndex as clipIndexSchema } from '../parse/clip-index.ts';
import { countFromZero } from '../parse/scalars.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { keepFrames, numbersDiffer } from '../time/settle-index.ts';
import { readClipIndex, replaceClipIndex } from './clip-frames.ts';
import type { BookDatabase } from './database.ts';
import { rememberNumbers } from './earlier-numbers.ts';
import { noSuch } from './no-such.ts';
import { renumberEdits } from './renumber-edits.ts';
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
const markedRow = v.strictObject({ frame_index: countFromZero, pts: v.pipe(v.number(), v.integer()) });
type Marked = v.InferOutput<typeof markedRow>;

/** Beyond the last frame of any clip: where numbers wait, so that none is taken twice while they change. */
const ASIDE = 1_000_000_000;

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
        const marked = database.all(
          markedRow,
          `SELECT frame_index, pts FROM marked_frame WHERE clip_id = ?
             UNION SELECT frame_index, pts FROM checkpoint WHERE clip_id = ?`,
          ...[clipId, clipId],
        );
        const wanted = marked.map(({ pts }) => pts);
        const settled = keepFrames(given, before, wanted);
        replaceClipIndex(database, clipId, settled);
        const count = settled.frames.length;
        database.run(
          `UPDATE clip SET frame_count = ?, rate_num = ?, rate_den = ?, kept_of = max(kept_of, kept_first + ?) WHERE id = ?`,
          ...[count, settled.nominalRate?.num ?? null, settled.nominalRate?.den ?? null, count, clipId],
        );
        if (!numbersDiffer(before.frames, settled.frames)) return false;
        renumber(database, clipId, marked, settled);
        renumberEdits(database, clipId, settled);
        rememberNumbers(database, clipId, before.frames);
        return true;
      });
    },
  };
}

/** Gives every named and marked frame the number that its time stamp has in `index`. */
function renumber(database: BookDatabase, clipId: string, marked: readonly Marked[], index: ClipIndex): void {
  const places = new Map(index.frames.map(({ pts }, place) => [pts, place]));
  // Parents and children change one after the other; they fit again at the end.
  database.run('PRAGMA defer_foreign_keys = ON');
  for (const table of ['marked_frame', 'placed_point', 'shape', 'checkpoint'])
    database.run(`UPDATE ${table} SET frame_index = frame_index + ${ASIDE} WHERE clip_id = ?`, clipId);
  for (const { frame_index, pts } of marked) {
    const place = places.get(pts);
    if (place === undefined) throw new Error(`no frame of the settled table has the time stamp ${pts}`);
    const cells = [place, clipId, frame_index + ASIDE] as const;
    for (const table of ['marked_frame', 'placed_point', 'shape'])
      database.run(`UPDATE ${table} SET frame_index = ? WHERE clip_id = ? AND frame_index = ?`, ...cells);
    database.run(
      'UPDATE checkpoint SET frame_index = ?, ticks = ? WHERE clip_id = ? AND frame_index = ?',
      ...[place, index.frames[place]?.ticks ?? 1, clipId, frame_index + ASIDE],
    );
  }
}
