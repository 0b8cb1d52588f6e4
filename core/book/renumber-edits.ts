import * as v from 'valibot';
import type { Edit } from '../model/edit.ts';
import type { FrameMarks } from '../model/mark.ts';
import { edit as editSchema } from '../parse/edit.ts';
import { countFromOne, identifier } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import type { FramePlaces } from './move-frames.ts';
import { flag } from './rows.ts';

const row = v.strictObject({
  number: countFromOne,
  lesson_id: identifier,
  undone: flag,
  what: v.pipe(v.string(), v.parseJson(), editSchema),
});

/**
 * Gives the frames in the kept edits of a clip the numbers and time stamps that they have in its new table. Where the
 * table has no such frame the edit is dropped, and with it all of its lesson that could be taken back, or made again, only
 * after it: nothing may come onto another frame than it was made on, nor out of order.
 */
export function renumberEdits(database: BookDatabase, clipId: string, placeOf: FramePlaces): void {
  const sql = 'SELECT number, lesson_id, undone, what FROM edit WHERE clip_id = ? ORDER BY number';
  for (const { number, lesson_id, undone, what } of database.all(row, sql, clipId)) {
    const edit = renumbered(what, placeOf);
    const beyond = undone ? 'undone = 1 AND number >= ?' : 'number <= ?';
    if (edit === null) database.run(`DELETE FROM edit WHERE lesson_id = ? AND ${beyond}`, lesson_id, number);
    else database.run('UPDATE edit SET what = ? WHERE number = ?', JSON.stringify(edit), number);
  }
}

/** An edit with its frames where they are now; null where one of them is none. */
export function renumbered(edit: Edit, placeOf: FramePlaces): Edit | null {
  if (edit.kind === 'marks') {
    const now = placeOf(edit.before.frame);
    if (now === null) return null;
    const at = (marks: FrameMarks): FrameMarks => ({ ...marks, frame: { index: now.index, pts: now.pts } });
    return { ...edit, before: at(edit.before), after: at(edit.after) };
  }
  if (edit.kind !== 'checkpoint') return edit;
  const placed = [edit.before, edit.after].map((frame) => (frame === null ? null : placeOf(frame)));
  const [before, after] = placed;
  const isLost = (edit.before !== null && before === null) || (edit.after !== null && after === null);
  return isLost || before === undefined || after === undefined ? null : { ...edit, before, after };
}
