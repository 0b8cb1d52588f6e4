import * as v from 'valibot';
import type { Edit } from '../model/edit.ts';
import type { FrameMarks } from '../model/mark.ts';
import { edit as editSchema } from '../parse/edit.ts';
import { countFromOne, identifier } from '../parse/scalars.ts';
import { frameWithPts } from '../time/frame-table.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { BookDatabase } from './database.ts';
import { flag } from './rows.ts';

const row = v.strictObject({
  number: countFromOne,
  lesson_id: identifier,
  undone: flag,
  what: v.pipe(v.string(), v.parseJson(), editSchema),
});

/**
 * Gives the frames in the kept edits of a clip the numbers that their time stamps have in its settled table. Where the
 * table has no such frame the edit is dropped, and with it all of its lesson that could be taken back, or made again, only
 * after it: nothing may come onto another frame than it was made on, nor out of order.
 */
export function renumberEdits(database: BookDatabase, clipId: string, index: ClipIndex): void {
  const sql = 'SELECT number, lesson_id, undone, what FROM edit WHERE clip_id = ? ORDER BY number';
  for (const { number, lesson_id, undone, what } of database.all(row, sql, clipId)) {
    const edit = renumbered(what, index);
    const beyond = undone ? 'undone = 1 AND number >= ?' : 'number <= ?';
    if (edit === null) database.run(`DELETE FROM edit WHERE lesson_id = ? AND ${beyond}`, lesson_id, number);
    else database.run('UPDATE edit SET what = ? WHERE number = ?', JSON.stringify(edit), number);
  }
}

function renumbered(edit: Edit, index: ClipIndex): Edit | null {
  if (edit.kind === 'marks') {
    const place = frameWithPts(index, edit.before.frame.pts);
    if (place === null) return null;
    const at = (marks: FrameMarks): FrameMarks => ({ ...marks, frame: { index: place, pts: marks.frame.pts } });
    return { ...edit, before: at(edit.before), after: at(edit.after) };
  }
  if (edit.kind !== 'checkpoint') return edit;
  const frames = [edit.before, edit.after].map((frame) => {
    if (frame === null) return null;
    const place = frameWithPts(index, frame.pts);
    const shown = place === null ? undefined : index.frames[place];
    return place === null || shown === undefined ? undefined : { index: place, pts: frame.pts, ticks: shown.ticks };
  });
  const [before, after] = frames;
  return before === undefined || after === undefined ? null : { ...edit, before, after };
}
