import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { inverseOf, latestKept } from '../model/edit.ts';
import type { Edit, KeptEdits } from '../model/edit.ts';
import { argument } from '../parse/argument.ts';
import { edit as editSchema } from '../parse/edit.ts';
import { countFromOne, identifier } from '../parse/scalars.ts';
import { checkpointOperations } from './checkpoints.ts';
import { clipOperations } from './clips.ts';
import type { BookDatabase } from './database.ts';
import { markOperations } from './marks.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { pinOperations } from './pins.ts';
import { flag } from './rows.ts';

export interface EditOperations {
  /**
   * Makes a change and keeps it with the lesson, so that it can be taken back: both or, on an error, neither. What had been
   * taken back before can no longer be made again. A lesson keeps its latest (`latestKept`).
   * @throws AppError as the change itself; `bad-request` when it is not about a clip of its swing; `no-such-record`.
   */
  makeEdit(edit: Edit): void;
  /** Takes the latest edit of a lesson back, and returns it; null when there is none. @throws AppError as the change itself. */
  undoEdit(lessonId: string): Edit | null;
  /** Makes the edit again that was taken back last, and returns it; null when there is none. */
  redoEdit(lessonId: string): Edit | null;
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

  function step(lessonId: string, direction: 'undo' | 'redo'): Edit | null {
    return database.write(() => {
      requireLesson(database, lessonId);
      const isUndo = direction === 'undo';
      const order = isUndo ? 'DESC' : 'ASC';
      const next = database.one(
        nextRow,
        `SELECT number, what FROM edit WHERE lesson_id = ? AND undone = ? ORDER BY number ${order} LIMIT 1`,
        ...[lessonId, isUndo ? 0 : 1],
      );
      if (next === null) return null;
      apply(isUndo ? inverseOf(next.what) : next.what);
      database.run('UPDATE edit SET undone = ? WHERE number = ?', isUndo ? 1 : 0, next.number);
      return next.what;
    });
  }

  return {
    makeEdit(given) {
      const edit = argument(editSchema, given, 'the edit');
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
    },

    undoEdit: (lessonId) => step(lessonId, 'undo'),
    redoEdit: (lessonId) => step(lessonId, 'redo'),

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
  if (clip.swing_id !== edit.swingId) throw new AppError('bad-request', 'The edit is about a clip of another swing.');
  return found;
}

function requireLesson(database: BookDatabase, id: string): void {
  if (database.one(v.unknown(), 'SELECT id FROM lesson WHERE id = ?', id) === null) throw noSuch('lesson', id);
}
