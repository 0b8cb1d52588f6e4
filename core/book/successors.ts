import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import type { Edit } from '../model/edit.ts';
import type { BookDatabase } from './database.ts';
import type { FramePlaces } from './move-frames.ts';
import { renumbered } from './renumber-edits.ts';

interface Successor {
  readonly id: string;
  readonly placeOf: FramePlaces;
}

/**
 * Clips that have another id, for as long as the book is open. Where all numbers of a clip move, a frame of before may have
 * number and time of another one of now. So the clip goes on under a new id: what was under way by the old one is known for
 * what it means, and nothing lands on another picture.
 */
const successors = new WeakMap<BookDatabase, Map<string, Successor>>();

const tableRow = v.strictObject({ name: v.string() });

/** Gives a clip a new id in all tables, within the change that moves its frames; answers with it. */
export function giveNewId(database: BookDatabase, clipId: string, placeOf: FramePlaces): string {
  const id = randomUUID();
  database.run('PRAGMA defer_foreign_keys = ON');
  const sql = `SELECT tables.name AS name FROM sqlite_schema AS tables JOIN pragma_table_info(tables.name) AS cells
    WHERE tables.type = 'table' AND cells.name = 'clip_id'`;
  for (const { name } of database.all(tableRow, sql))
    database.run(`UPDATE ${name} SET clip_id = ? WHERE clip_id = ?`, id, clipId);
  database.run('UPDATE edit SET what = json_set(what, ?, ?) WHERE clip_id = ?', '$.clipId', id, id);
  database.run('UPDATE clip SET id = ? WHERE id = ?', id, clipId);
  const known = successors.get(database) ?? new Map<string, Successor>();
  successors.set(database, known.set(clipId, { id, placeOf }));
  return id;
}

/** The id that a clip has now. */
export function presentId(database: BookDatabase, clipId: string): string {
  return successors.get(database)?.get(clipId)?.id ?? clipId;
}

/** An edit that may be of a clip by its earlier id, as it is now; one that cannot be told is left as it is, and refused. */
export function presentEdit(database: BookDatabase, edit: Edit): Edit {
  const now = 'clipId' in edit ? successors.get(database)?.get(edit.clipId) : undefined;
  const moved = now === undefined ? null : renumbered(edit, now.placeOf);
  return now === undefined || moved === null || !('clipId' in moved) ? edit : { ...moved, clipId: now.id };
}
