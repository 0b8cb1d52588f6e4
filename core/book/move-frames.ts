import * as v from 'valibot';
import type { CheckpointFrame, FrameRef } from '../model/frame.ts';
import { countFromZero } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { renumberEdits } from './renumber-edits.ts';

/** What a frame of a clip's table of before is in its new one; null: it is none there. */
export type FramePlaces = (frame: FrameRef) => CheckpointFrame | null;

const markedRow = v.strictObject({ frame_index: countFromZero, pts: v.pipe(v.number(), v.integer()) });

/** The frames of a clip that are named or marked. */
export function markedFrames(database: BookDatabase, clipId: string): readonly FrameRef[] {
  const sql = `SELECT frame_index, pts FROM marked_frame WHERE clip_id = ?
    UNION SELECT frame_index, pts FROM checkpoint WHERE clip_id = ?`;
  return database.all(markedRow, sql, clipId, clipId).map(({ frame_index, pts }) => ({ index: frame_index, pts }));
}

/** Beyond the last frame of any clip: where numbers wait, so that none is taken twice while they change. */
const ASIDE = 1_000_000_000;

/**
 * Gives all that hangs on frames of a clip their new numbers and time stamps: names, marks and edits. To be called within
 * the change that stores the new table, which has every frame something hangs on.
 */
export function moveFrames(database: BookDatabase, clipId: string, placeOf: FramePlaces): void {
  const marked = markedFrames(database, clipId);
  // Parents and children change one after the other; they fit again at the end.
  database.run('PRAGMA defer_foreign_keys = ON');
  for (const table of ['marked_frame', 'placed_point', 'shape', 'checkpoint'])
    database.run(`UPDATE ${table} SET frame_index = frame_index + ${ASIDE} WHERE clip_id = ?`, clipId);
  for (const frame of marked) {
    const now = placeOf(frame);
    if (now === null) throw new Error(`the new table has no frame for the time stamp ${frame.pts}`);
    const cells = [clipId, frame.index + ASIDE] as const;
    const which = 'WHERE clip_id = ? AND frame_index = ?';
    for (const table of ['placed_point', 'shape'])
      database.run(`UPDATE ${table} SET frame_index = ? ${which}`, now.index, ...cells);
    database.run(`UPDATE marked_frame SET frame_index = ?, pts = ? ${which}`, now.index, now.pts, ...cells);
    const sql = `UPDATE checkpoint SET frame_index = ?, pts = ?, ticks = ? ${which}`;
    database.run(sql, now.index, now.pts, now.ticks, ...cells);
  }
  renumberEdits(database, clipId, placeOf);
}
