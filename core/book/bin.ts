import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import { BIN_KINDS, type BinEntry, type BinKind } from '../model/bin.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { AppError } from '../model/errors.ts';
import { identifier } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { readTree, rowsAsText, rowsFromText, writeTree, type TakenRow } from './row-tree.ts';

export interface BinOperations {
  /** What can be put back, removed last first. */
  listBin(): readonly BinEntry[];
  /**
   * Removes a record and all below it, so that it can be put back: out of sight everywhere else, while the copies of its
   * clips stay. `now` is an instant, ISO 8601. @throws AppError `no-such-record`.
   */
  moveToBin(kind: BinKind, id: string, now: string): BinEntry;
  /**
   * Puts back what was removed, with its marks and the edits that can be undone.
   * @throws AppError `no-such-record`; `bad-request` when what it belonged to is not in the book, or its place is taken.
   */
  putBack(entryId: string): BinEntry;
  /** Removes for good what was removed before an instant, all without one; media files that no clip uses go too. */
  emptyBin(before?: string): void;
  /** The same for one entry. @throws AppError `no-such-record`. */
  removeFromBin(entryId: string): void;
}

const COLUMNS = 'id, kind, name, removed_at';
const entryFields = { id: identifier, kind: v.picklist(BIN_KINDS), name: v.string(), removed_at: v.string() };
const toEntry = ({ id, kind, name, removed_at }: v.InferOutput<v.ObjectSchema<typeof entryFields, undefined>>) => ({
  ...{ id, kind, name },
  removedAt: removed_at,
});
const entryRow = v.pipe(v.strictObject(entryFields), v.transform(toEntry));
const fullRow = v.pipe(
  v.strictObject({ ...entryFields, rows: v.string() }),
  v.transform(({ rows, ...entry }) => ({ entry: toEntry(entry), rows })),
);

/** Whose each kind is, of which day, and what it is called itself. */
const NAMES: Readonly<Record<BinKind, string>> = {
  student: "SELECT trim(first_name || ' ' || last_name) AS whose, NULL AS day, NULL AS own FROM student WHERE id = ?",
  lesson: `SELECT student.first_name AS whose, lesson.date AS day, lesson.club AS own FROM lesson
    JOIN student ON student.id = lesson.student_id WHERE lesson.id = ?`,
  swing: `SELECT student.first_name AS whose, lesson.date AS day, swing.label AS own FROM swing
    JOIN lesson ON lesson.id = swing.lesson_id JOIN student ON student.id = lesson.student_id WHERE swing.id = ?`,
  clip: `SELECT student.first_name AS whose, lesson.date AS day, clip.original_name AS own FROM clip
    JOIN swing ON swing.id = clip.swing_id JOIN lesson ON lesson.id = swing.lesson_id
    JOIN student ON student.id = lesson.student_id WHERE clip.id = ?`,
};
const nameRow = v.pipe(
  v.strictObject({ whose: v.string(), day: v.nullable(v.string()), own: v.nullable(v.string()) }),
  v.transform(({ whose, day, own }) =>
    [whose, day === null ? null : dayInWords(day), own].filter((part) => part !== null).join(', '),
  ),
);

export function binOperations(database: BookDatabase, media: MediaFolder): BinOperations {
  const found = (entryId: string) => {
    const sql = `SELECT ${COLUMNS}, rows FROM bin_entry WHERE id = ?`;
    const entry = database.one(fullRow, sql, entryId);
    if (entry === null) throw new AppError('no-such-record', say`That is not in the bin any more.`);
    return entry;
  };
  return {
    listBin: () => database.all(entryRow, `SELECT ${COLUMNS} FROM bin_entry ORDER BY removed_at DESC, number DESC`),

    moveToBin: (kind, id, now) =>
      media.removing(() => {
        const name = database.one(nameRow, NAMES[kind], id);
        if (name === null) throw noSuch(kind, id);
        const entry: BinEntry = { id: randomUUID(), kind, name, removedAt: now };
        const rows = readTree(database, kind, id);
        const sql = 'INSERT INTO bin_entry (id, kind, name, removed_at, rows) VALUES (?, ?, ?, ?, ?)';
        database.run(sql, entry.id, kind, entry.name, now, rowsAsText(rows));
        for (const file of copiesIn(rows))
          database.run('INSERT INTO bin_file (entry_id, file) VALUES (?, ?)', entry.id, file);
        database.run(`DELETE FROM ${kind} WHERE id = ?`, id);
        return entry;
      }),

    putBack: (entryId) =>
      database.write(() => {
        const { entry, rows: text } = found(entryId);
        const rows = rowsFromText(database, text);
        refuseWithoutPlace(database, entry.kind, rows);
        writeTree(database, rows);
        database.run('DELETE FROM bin_entry WHERE id = ?', entryId);
        return entry;
      }),

    emptyBin(before) {
      const sql = `SELECT ${COLUMNS} FROM bin_entry`;
      const gone = database.all(entryRow, sql).filter(({ removedAt }) => before === undefined || removedAt < before);
      // Nothing is written anew for nothing.
      if (gone.length === 0) return;
      media.removing(() => {
        for (const { id } of gone) database.run('DELETE FROM bin_entry WHERE id = ?', id);
      });
    },

    removeFromBin(entryId) {
      found(entryId);
      media.removing(() => database.run('DELETE FROM bin_entry WHERE id = ?', entryId));
    },
  };
}

/** Files of the media folder that rows of clips name. */
function copiesIn(rows: readonly TakenRow[]): ReadonlySet<string> {
  const copies = rows.filter(({ table, cells }) => table === 'clip' && cells['stored'] === 'copied');
  return new Set(copies.map(({ cells }) => String(cells['file'])));
}

const PARENT = {
  lesson: { table: 'student', column: 'student_id' },
  swing: { table: 'lesson', column: 'lesson_id' },
  clip: { table: 'swing', column: 'swing_id' },
} as const;

function refuseWithoutPlace(database: BookDatabase, kind: BinKind, rows: readonly TakenRow[]): void {
  const [root] = rows;
  if (kind === 'student' || root === undefined) return;
  const { table, column } = PARENT[kind];
  const parentId = root.cells[column] ?? null;
  if (database.one(v.unknown(), `SELECT 1 FROM ${table} WHERE id = ?`, parentId) === null)
    throw new AppError(
      'bad-request',
      {
        lesson: say`The student that this lesson belongs to is not in the book. Put the student back first.`,
        swing: say`The lesson that this swing belongs to is not in the book. Put the lesson back first.`,
        clip: say`The swing that this clip belongs to is not in the book. Put the swing back first.`,
      }[kind],
    );
  const sql = 'SELECT 1 FROM clip WHERE swing_id = ? AND view = ?';
  if (kind === 'clip' && database.one(v.unknown(), sql, parentId, root.cells['view'] ?? null) !== null)
    throw new AppError('bad-request', say`Its swing has another clip of that view now. Remove that one first.`);
}
