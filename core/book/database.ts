import { say } from '../model/say.ts';
import type Sqlite from 'better-sqlite3';
import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { firstTrouble } from '../parse/sentence.ts';
import { bookFolderGone, BookPlace, replacedBook } from './book-place.ts';
import { bookTrouble } from './book-trouble.ts';

/** What can be stored: whole numbers up to 2^53, 8-byte floats, text, bytes, or nothing. */
export type Cell = string | number | null | Uint8Array;

const checkpointRows = v.tuple([v.object({ busy: v.number() })]);

/**
 * The open SQLite file of a book. Rows come out as unknown and are parsed here, so that a row from a damaged or
 * hand-edited file can never walk into the program; what SQLite says is turned into sentences.
 */
export class BookDatabase {
  readonly path: string;
  readonly #connect: () => Sqlite.Database;
  readonly #place: BookPlace;
  readonly #onPutBack: () => void;
  #sqlite: Sqlite.Database;
  readonly #statements = new Map<string, Sqlite.Statement<Cell[]>>();

  /** `connect` opens the file at `path`; `onPutBack` hears of it when the file was removed and is in its place again. */
  constructor(path: string, connect: () => Sqlite.Database, onPutBack: () => void) {
    this.path = path;
    this.#connect = connect;
    this.#onPutBack = onPutBack;
    this.#place = new BookPlace(path);
    this.#sqlite = connect();
    this.#place.settle();
  }

  /** Runs `work` in one transaction: all of it is stored when this returns, or nothing when it throws. May be nested. */
  write<Result>(work: () => Result): Result {
    return this.#guarded(() => {
      this.#requirePlace();
      return this.#sqlite.transaction(work).immediate();
    });
  }

  /** Runs `work` on one unchanging view of the book. */
  read<Result>(work: () => Result): Result {
    return this.#guarded(() => this.#sqlite.transaction(work).deferred());
  }

  /** Changes rows; returns how many. */
  run(sql: string, ...cells: Cell[]): number {
    return this.#guarded(() => {
      this.#requirePlace();
      return this.#statement(sql).run(...cells).changes;
    });
  }

  /** Adds a row, by the names of its columns; true and false are kept as 1 and 0. */
  insert(table: string, row: Readonly<Record<string, Cell | boolean>>): void {
    const places = Object.keys(row).map(() => '?');
    const cells = Object.values(row).map((cell) => (typeof cell === 'boolean' ? Number(cell) : cell));
    this.run(`INSERT INTO ${table} (${Object.keys(row).join(', ')}) VALUES (${places.join(', ')})`, ...cells);
  }

  /** The first row, parsed, or null when there is none. */
  one<Schema extends v.GenericSchema>(schema: Schema, sql: string, ...cells: Cell[]): v.InferOutput<Schema> | null {
    const row = this.#guarded(() => this.#statement(sql).get(...cells));
    return row === undefined ? null : this.parsed(schema, row);
  }

  /** All rows, parsed, in the order of the statement. */
  all<Schema extends v.GenericSchema>(schema: Schema, sql: string, ...cells: Cell[]): v.InferOutput<Schema>[] {
    return this.#guarded(() => this.#statement(sql).all(...cells)).map((row) => this.parsed(schema, row));
  }

  /** Parses something that was stored. @throws AppError `book-damaged` when it is not what was stored. */
  parsed<Schema extends v.GenericSchema>(schema: Schema, stored: unknown): v.InferOutput<Schema> {
    const result = v.safeParse(schema, stored, { abortEarly: true });
    if (result.success) return result.output;
    throw new AppError(
      'book-damaged',
      say`A record in ${this.path} is damaged and was left as it is: ${firstTrouble(result.issues, say`the record`)}.`,
      { detail: { path: this.path } },
    );
  }

  /**
   * Writes the file anew with nothing in it but what is in use, and empties the journal. Returns whether the journal is
   * empty: a reader by other means may hold it back. Not within a transaction.
   */
  writeAnew(): boolean {
    return this.#guarded(() => {
      this.#sqlite.exec('VACUUM');
      const [state] = v.parse(checkpointRows, this.#sqlite.pragma('wal_checkpoint(TRUNCATE)'));
      return state.busy === 0;
    });
  }

  /** @throws AppError `book-missing` when the file is not in its place and could not be put back; it is closed then too. */
  close(): void {
    try {
      this.#guarded(() => this.#requirePlace());
    } finally {
      this.#disconnect();
    }
  }

  /**
   * Before anything is written, and before the end: where the file was removed, it is put back with all that is in it, and
   * where another one stands in its place, the book is written beside that.
   */
  #requirePlace(): void {
    if (!this.#sqlite.open || this.#sqlite.inTransaction) return;
    const standing = this.#place.look();
    if (standing === 'as it was') return;
    if (standing === 'folder gone') throw bookFolderGone(this.path);
    const kept = this.#place.keepBeside((path) => void this.#sqlite.prepare('VACUUM INTO ?').run(path));
    if (standing === 'another file') throw replacedBook(this.path, kept);
    this.#disconnect();
    this.#place.putBack(kept);
    this.#sqlite = this.#connect();
    this.#place.settle();
    this.#onPutBack();
  }

  #disconnect(): void {
    this.#statements.clear();
    this.#sqlite.close();
    if (this.#place.look() !== 'as it was') this.#place.dropJournals();
  }

  #statement(sql: string): Sqlite.Statement<Cell[]> {
    const known = this.#statements.get(sql);
    if (known !== undefined) return known;
    const statement = this.#sqlite.prepare<Cell[]>(sql);
    this.#statements.set(sql, statement);
    return statement;
  }

  #guarded<Result>(work: () => Result): Result {
    try {
      return work();
    } catch (error) {
      throw bookTrouble(error, this.path);
    }
  }
}
