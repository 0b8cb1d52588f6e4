import * as v from 'valibot';
import type { BookDatabase, Cell } from './database.ts';

/** A row as it stood in its table, by column. */
export interface TakenRow {
  readonly table: string;
  readonly cells: Readonly<Record<string, Cell>>;
}

const row = v.record(v.string(), v.union([v.string(), v.number(), v.null(), v.instance(Uint8Array)]));
const named = v.object({ name: v.string() });
const column = v.object({ name: v.string(), type: v.string(), pk: v.number() });
const reference = v.object({
  id: v.number(),
  table: v.string(),
  from: v.string(),
  to: v.string(),
  on_delete: v.string(),
});

/** One foreign key: which columns of `table` hold what of `parent`. */
interface Tie {
  readonly table: string;
  readonly parent: string;
  readonly columns: readonly { readonly from: string; readonly to: string }[];
  readonly cascades: boolean;
}

/**
 * Reads a row and all that goes with it when it is deleted, the row itself first, as the book's own foreign keys say
 * (ON DELETE CASCADE). So a table that a later version adds comes along by itself. Empty when there is no such row.
 */
export function readTree(database: BookDatabase, table: string, id: string): readonly TakenRow[] {
  const ties = tiesOf(database).filter(({ cascades }) => cascades);
  const taken: TakenRow[] = [];
  // A row may hang on two that go, as a comparison does.
  const seen = new Set<string>();
  let level: TakenRow[] = database
    .all(row, `SELECT * FROM ${table} WHERE id = ?`, id)
    .map((cells) => ({ table, cells }));
  while (level.length > 0) {
    const fresh = level.filter((each) => !seen.has(keyOf(each)) && seen.add(keyOf(each)));
    taken.push(...fresh);
    level = fresh.flatMap((parent) =>
      ties
        .filter((tie) => tie.parent === parent.table)
        .flatMap((tie) => {
          const where = tie.columns.map(({ from }) => `${from} = ?`).join(' AND ');
          const values = tie.columns.map(({ to }) => parent.cells[to] ?? null);
          const children = database.all(row, `SELECT * FROM ${tie.table} WHERE ${where}`, ...values);
          return children.map((cells) => ({ table: tie.table, cells }));
        }),
    );
  }
  return taken;
}

/**
 * Puts rows back as `readTree` took them. One that hangs on something which is gone (what a swing was compared with) is
 * left out. The order in which rows were added is theirs again unless others took their numbers.
 *
 * @throws what SQLite says of a row that cannot stand beside those that are there.
 */
export function writeTree(database: BookDatabase, rows: readonly TakenRow[]): void {
  const ties = tiesOf(database);
  let waiting = rows;
  let before: number;
  // A row may hang on one that was read after it, as an edit does: on its lesson, and on a clip below that.
  do {
    before = waiting.length;
    waiting = waiting.filter((each) => {
      if (!hasParents(database, ties, each)) return true;
      insert(database, each);
      return false;
    });
  } while (waiting.length > 0 && waiting.length < before);
}

function insert(database: BookDatabase, { table, cells }: TakenRow): void {
  const counter = counterOf(database, table);
  const isTaken =
    counter !== null &&
    database.one(v.unknown(), `SELECT 1 FROM ${table} WHERE ${counter} = ?`, cells[counter] ?? null) !== null;
  const columns = Object.keys(cells).filter((name) => !(isTaken && name === counter));
  const sql = `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`;
  database.run(sql, ...columns.map((name) => cells[name] ?? null));
}

function hasParents(database: BookDatabase, ties: readonly Tie[], { table, cells }: TakenRow): boolean {
  return ties
    .filter((tie) => tie.table === table)
    .every((tie) => {
      const values = tie.columns.map(({ from }) => cells[from] ?? null);
      if (values.includes(null)) return true;
      const where = tie.columns.map(({ to }) => `${to} = ?`).join(' AND ');
      return database.one(v.unknown(), `SELECT 1 FROM ${tie.parent} WHERE ${where}`, ...values) !== null;
    });
}

function tiesOf(database: BookDatabase): readonly Tie[] {
  const tables = database.all(named, "SELECT name FROM sqlite_schema WHERE type = 'table'").map(({ name }) => name);
  return tables.flatMap((table) => {
    const lines = database.all(reference, 'SELECT * FROM pragma_foreign_key_list(?) ORDER BY id, seq', table);
    return [...new Set(lines.map(({ id }) => id))].map((id): Tie => {
      const own = lines.filter((line) => line.id === id);
      const [{ table: parent, on_delete } = { table: '', on_delete: '' }] = own;
      return { table, parent, columns: own.map(({ from, to }) => ({ from, to })), cascades: on_delete === 'CASCADE' };
    });
  });
}

/** The column that only keeps the order of rows; null where the key says something. */
function counterOf(database: BookDatabase, table: string): string | null {
  const keys = database.all(column, 'SELECT name, type, pk FROM pragma_table_info(?) WHERE pk > 0', table);
  return keys.length === 1 && keys[0]?.type === 'INTEGER' ? keys[0].name : null;
}

const keyOf = ({ table, cells }: TakenRow): string => `${table} ${cellsAsText(cells)}`;

/** Rows as text, bytes in base64. Numbers read back to the same 8-byte float. */
export function rowsAsText(rows: readonly TakenRow[]): string {
  return JSON.stringify(rows.map(({ table, cells }) => ({ table, cells: packed(cells) })));
}

const cell = v.union([
  v.string(),
  v.number(),
  v.null(),
  v.pipe(
    v.strictObject({ bytes: v.string() }),
    v.transform(({ bytes }): Uint8Array => Buffer.from(bytes, 'base64')),
  ),
]);
const rowsSchema = v.pipe(
  v.string(),
  v.parseJson(),
  v.array(v.strictObject({ table: v.string(), cells: v.record(v.string(), cell) })),
);

/** @throws AppError `book-damaged` when the text is not what `rowsAsText` wrote. */
export function rowsFromText(database: BookDatabase, text: string): readonly TakenRow[] {
  return database.parsed(rowsSchema, text);
}

const cellsAsText = (cells: TakenRow['cells']): string => JSON.stringify(packed(cells));

function packed(cells: TakenRow['cells']): Record<string, unknown> {
  const pack = (value: Cell) =>
    value instanceof Uint8Array ? { bytes: Buffer.from(value).toString('base64') } : value;
  return Object.fromEntries(Object.entries(cells).map(([name, value]) => [name, pack(value)]));
}
