import { isDeepStrictEqual } from 'node:util';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { continuedEdit, inverseOf, latestKept } from '../model/edit.ts';
import type { Edit, EditWrite, KeptEdits } from '../model/edit.ts';
import { argument } from '../parse/argument.ts';
import { edit as editSchema } from '../parse/edit.ts';
import { countFromOne, identifier } from '../parse/scalars.ts';
import { checkpointOperations } from './checkpoints.ts';
import { clipOperations } from './clips.ts';
import type { BookDatabase } from './database.ts';
import { lessonPageOperations } from './lesson-pages.ts';
import { markOperations } from './marks.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { presentEdit } from './successors.ts';
import { pinOperations } from './pins.ts';
import { flag } from './rows.ts';
import { changeTalk } from './talks.ts';

export interface EditOperations {
  /**
   * Makes a change and keeps it with the lesson, so that it can be taken back: both or, on an error, neither. What had been
   * taken back before can no longer be made again. A lesson keeps its latest (`latestKept`).
   * @throws AppError as the change itself; `bad-request` when it is not about a clip of its swing; `no-such-record`.
   */
  makeEdit(edit: Edit): void;
  /**
   * Makes a change that goes on with the lesson's latest edit: both are taken back as one.
   * @throws AppError as `makeEdit`; `bad-request` when the latest edit is not of the same frame's marks, or was taken back.
   */
  continueEdit(edit: Edit): void;
  /**
   * Takes the latest edit of a lesson back, and returns it; null when there is none. @throws AppError as the change itself;
   * `bad-request` when it is not the `expected` one: what nobody saw is not taken back.
   */
  undoEdit(lessonId: string, expected?: Edit): Edit | null;
  /** Makes the edit again that was taken back last, and returns it; null when there is none. Errors as for `undoEdit`. */
  redoEdit(lessonId: string, expected?: Edit): Edit | null;
  /** Does the one of these that the window asks for. */
  writeEdit(write: EditWrite): void;
  /**
   * Does several, in order: all that the book takes or, where it cannot be written, none. Answers with those it refused
   * (`bad-request`, `no-such-record`). @throws AppError when it cannot be written.
   */
  writeEdits(writes: readonly EditWrite[]): readonly EditWrite[];
  /** @throws AppError `no-such-record` when the lesson is not there. */
  listEdits(lessonId: string): KeptEdits;
}

const keptEdit = v.pipe(v.string(), v.parseJson(), editSchema);
const listedRow = v.strictObject({ what: keptEdit, undone: flag });
const nextRow = v.strictObject({ number: countFromOne, what: keptEdit });
const sizeRow = v.strictObject({ number: countFromOne, characters: countFromOne });
const lessonRow = v.strictObject({ lesson_id: identifier });

export function editOperations(database: BookDatabase, media: MediaFolder): EditOperations {
  const apply = applyEdits(database, media);

  /** The next edit to take back or to make again. */
  function nextOf(lessonId: string, direction: 'undo' | 'redo') {
    const isUndo = direction === 'undo';
    return database.one(
      nextRow,
      `SELECT number, what FROM edit WHERE lesson_id = ? AND undone = ? ORDER BY number ${isUndo ? 'DESC' : 'ASC'} LIMIT 1`,
      ...[lessonId, isUndo ? 0 : 1],
    );
  }

  function step(lessonId: string, direction: 'undo' | 'redo', expected: Edit | null): Edit | null {
    return database.write(() => {
      requireLesson(database, lessonId);
      const isUndo = direction === 'undo';
      const next = nextOf(lessonId, direction);
      if (expected !== null && !isDeepStrictEqual(next?.what, expected)) throw otherEdit(isUndo);
      if (next === null) return null;
      apply(isUndo ? inverseOf(next.what) : next.what);
      database.run('UPDATE edit SET undone = ? WHERE number = ?', isUndo ? 1 : 0, next.number);
      return next.what;
    });
  }

  function makeEdit(given: Edit): void {
    const edit = argument(editSchema, given, say`the edit`);
    database.write(() => {
      const { lesson_id: lessonId } = lessonOf(database, edit);
      apply(edit);
      database.run('DELETE FROM edit WHERE lesson_id = ? AND undone = 1', lessonId);
      database.run(
        'INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES (?, ?, ?, 0, ?)',
        ...[lessonId, edit.swingId, 'clipId' in edit ? edit.clipId : null, JSON.stringify(edit)],
      );
      dropOldest(database, lessonId);
    });
  }

  function continueEdit(given: Edit): void {
    const edit = argument(editSchema, given, say`the edit`);
    database.write(() => {
      const { lesson_id: lessonId } = lessonOf(database, edit);
      const latest = nextOf(lessonId, 'undo');
      const both = latest === null || nextOf(lessonId, 'redo') !== null ? null : continuedEdit(latest.what, edit);
      if (latest === null || both === null) throw otherEdit(true);
      apply(edit);
      database.run('UPDATE edit SET what = ? WHERE number = ?', JSON.stringify(both), latest.number);
      dropOldest(database, lessonId);
    });
  }

  const undoEdit = (lessonId: string, expected?: Edit): Edit | null => step(lessonId, 'undo', parsed(expected));
  const redoEdit = (lessonId: string, expected?: Edit): Edit | null => step(lessonId, 'redo', parsed(expected));

  function writeEdit(given: EditWrite): void {
    const write = { ...given, edit: presentEdit(database, given.edit) };
    if (write.does === 'make') makeEdit(write.edit);
    else if (write.does === 'continue') continueEdit(write.edit);
    else step(write.lessonId, write.does, parsed(write.edit));
  }

  return {
    ...{ makeEdit, continueEdit, undoEdit, redoEdit, writeEdit },

    writeEdits: (writes) => database.write(() => writes.filter((write) => refuses(() => writeEdit(write)))),

    listEdits: (lessonId) =>
      database.read(() => {
        requireLesson(database, lessonId);
        const rows = database.all(
          listedRow,
          'SELECT what, undone FROM edit WHERE lesson_id = ? ORDER BY number',
          lessonId,
        );
        return {
          done: rows.filter(({ undone }) => !undone).map(({ what }) => what),
          undone: rows
            .filter(({ undone }) => undone)
            .map(({ what }) => what)
            .toReversed(),
        };
      }),
  };
}

/** As it is read from the book, where JSON has been (it knows no -0), so that the two can be compared. */
function parsed(expected: Edit | undefined): Edit | null {
  return expected === undefined ? null : argument(keptEdit, JSON.stringify(expected), say`the edit`);
}

/** Whether what is to be done is refused, for now and ever. @throws what else keeps it from being done. */
function refuses(work: () => void): boolean {
  try {
    work();
    return false;
  } catch (error) {
    if (error instanceof AppError && (error.code === 'bad-request' || error.code === 'no-such-record')) return true;
    throw error;
  }
}

function otherEdit(isUndo: boolean): AppError {
  const which = isUndo ? say`the latest change` : say`the change that was taken back last`;
  return new AppError('bad-request', say`In the book ${which} is another one. The lesson is shown as the book has it.`);
}

/** All are edits that can be taken back. JSON of ours is ASCII, so that bytes, which SQLite knows unread, are characters. */
function dropOldest(database: BookDatabase, lessonId: string): void {
  const sql = 'SELECT number, octet_length(what) AS characters FROM edit WHERE lesson_id = ? ORDER BY number';
  const [first] = latestKept(database.all(sizeRow, sql, lessonId), ({ characters }) => characters);
  if (first !== undefined) database.run('DELETE FROM edit WHERE lesson_id = ? AND number < ?', lessonId, first.number);
}

/** Carries an edit out by the operations that any change goes by, so that what they refuse is refused here too. */
function applyEdits(database: BookDatabase, media: MediaFolder): (edit: Edit) => void {
  const { saveMarks } = markOperations(database);
  const { setCheckpoint } = checkpointOperations(database);
  const { setCaptureRate, setView } = clipOperations(database, media);
  const { setPins } = pinOperations(database);
  const { setPage } = lessonPageOperations(database);
  return (edit) => {
    switch (edit.kind) {
      case 'marks':
        return saveMarks(edit.clipId, edit.after);
      case 'checkpoint': {
        const { clipId, checkpoint, after } = edit;
        setCheckpoint(clipId, checkpoint, after === null ? null : { index: after.index, pts: after.pts });
        return;
      }
      case 'capture-rate':
        return setCaptureRate(edit.clipId, edit.after);
      case 'view':
        return setView(edit.clipId, edit.after);
      case 'pins':
        return setPins(edit.swingId, edit.after);
      case 'page':
        return setPage(edit.swingId, edit.after);
      case 'talk':
        return changeTalk(database, edit);
      case 'consent': {
        const sql = 'UPDATE lesson SET consent = ? WHERE id = (SELECT lesson_id FROM swing WHERE id = ?)';
        database.run(sql, edit.after ? 1 : 0, edit.swingId);
        return;
      }
    }
  };
}

function lessonOf(database: BookDatabase, edit: Edit): { readonly lesson_id: string } {
  const found = database.one(lessonRow, 'SELECT lesson_id FROM swing WHERE id = ?', edit.swingId);
  if (found === null) throw noSuch('swing', edit.swingId);
  if (!('clipId' in edit)) return found;
  const clip = database.one(
    v.strictObject({ swing_id: identifier }),
    'SELECT swing_id FROM clip WHERE id = ?',
    edit.clipId,
  );
  if (clip === null) throw noSuch('clip', edit.clipId);
  if (clip.swing_id !== edit.swingId)
    throw new AppError('bad-request', say`The edit is about a clip of another swing.`);
  return found;
}

function requireLesson(database: BookDatabase, id: string): void {
  if (database.one(v.unknown(), 'SELECT id FROM lesson WHERE id = ?', id) === null) throw noSuch('lesson', id);
}
