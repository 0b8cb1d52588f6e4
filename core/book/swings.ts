import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { BookSwing, Clip, Swing } from '../model/book.ts';
import type { View } from '../model/words.ts';
import { argument } from '../parse/argument.ts';
import { typedName } from '../parse/scalars.ts';
import type { SwingPlace } from '../time/pair-swings.ts';
import { checkpointsOf } from './checkpoints.ts';
import type { BookDatabase } from './database.ts';
import { pageOf } from './lesson-pages.ts';
import { marksOf } from './marks.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { pinsOf } from './pins.ts';
import {
  CLIP_COLUMNS,
  clipRow,
  LESSON_COLUMNS,
  lessonRow,
  STUDENT_COLUMNS,
  studentRow,
  SWING_COLUMNS,
  swingRow,
} from './rows.ts';
import { talkEditsOf } from './talks.ts';

export interface SwingOperations {
  /** @throws AppError `bad-request`, `no-such-record` when the lesson is not there. */
  addSwing(swing: { readonly lessonId: string; readonly label: string }): Swing;
  /** Removes all below as well, and the media files no other clip uses. @throws AppError `no-such-record`. */
  removeSwing(id: string): void;
  /** Everything on one swing, read at one moment. Clips down the line first. @throws AppError `no-such-record`. */
  openSwing(id: string): BookSwing;
  /**
   * The swings of its lesson that have no clip of a view: this one first, then those after it, then those before.
   * @throws AppError `no-such-record`.
   */
  placesFor(id: string, view: View): readonly SwingPlace[];
}

const swingFields = v.object({ label: typedName });

export function swingOperations(database: BookDatabase, media: MediaFolder): SwingOperations {
  return {
    addSwing({ lessonId, ...fields }) {
      const { label } = argument(swingFields, fields, say`the swing`);
      const id = randomUUID();
      const sql = 'INSERT INTO swing (id, lesson_id, label) SELECT ?, id, ? FROM lesson WHERE id = ?';
      if (database.run(sql, id, label, lessonId) === 0) throw noSuch('lesson', lessonId);
      return { id, lessonId, label };
    },

    removeSwing(id) {
      media.removing(() => {
        if (database.run('DELETE FROM swing WHERE id = ?', id) === 0) throw noSuch('swing', id);
      });
    },

    openSwing: (id) => database.read(() => readSwing(database, id)),

    placesFor: (id, view) =>
      database.read(() => {
        const sql = `SELECT ${SWING_COLUMNS} FROM swing WHERE lesson_id = (SELECT lesson_id FROM swing WHERE id = ?)`;
        const swings = database.all(swingRow, `${sql} ORDER BY number`, id);
        const at = swings.findIndex((swing) => swing.id === id);
        if (at < 0) throw noSuch('swing', id);
        return [...swings.slice(at), ...swings.slice(0, at)].flatMap(({ id: swingId, label }) => {
          const clips = database.all(clipRow, `SELECT ${CLIP_COLUMNS} FROM clip WHERE swing_id = ?`, swingId);
          if (clips.some((clip) => clip.view === view)) return [];
          return [{ swingId, label, endsAt: clips.map(endOf).find((seconds) => seconds !== null) ?? null }];
        });
      }),
  };
}

/** Where a clip ends in the file that it was cut from, seconds, by its usual rate; null where it was not cut. */
function endOf({ kept, frameCount, nominalRate }: Clip): number | null {
  if (kept === null || nominalRate === null) return null;
  return ((kept.first + frameCount - 1) * nominalRate.den) / nominalRate.num;
}

function readSwing(database: BookDatabase, id: string): BookSwing {
  const swing = database.one(swingRow, `SELECT ${SWING_COLUMNS} FROM swing WHERE id = ?`, id);
  if (swing === null) throw noSuch('swing', id);
  const lesson = database.one(lessonRow, `SELECT ${LESSON_COLUMNS} FROM lesson WHERE id = ?`, swing.lessonId);
  if (lesson === null) throw noSuch('lesson', swing.lessonId);
  const student = database.one(studentRow, `SELECT ${STUDENT_COLUMNS} FROM student WHERE id = ?`, lesson.studentId);
  if (student === null) throw noSuch('student', lesson.studentId);
  const others = database.all(
    swingRow,
    `SELECT ${SWING_COLUMNS} FROM swing WHERE lesson_id = ? AND id <> ? ORDER BY number`,
    swing.lessonId,
    id,
  );
  const talkEdits = talkEditsOf(database, id);
  const besides = others
    .map(({ id: other, label }) => ({ label, clips: clipsOf(database, other) }))
    .filter(({ clips }) => clips.length > 0);
  return {
    ...{ student, lesson, swing },
    clips: clipsOf(database, id),
    pins: pinsOf(database, id),
    page: pageOf(database, lesson.id),
    ...(talkEdits.length === 0 ? {} : { talkEdits }),
    ...(besides.length === 0 ? {} : { besides }),
  };
}

function clipsOf(database: BookDatabase, swingId: string): BookSwing['clips'] {
  const clips = database.all(clipRow, `SELECT ${CLIP_COLUMNS} FROM clip WHERE swing_id = ? ORDER BY view`, swingId);
  return clips.map((clip) => ({
    ...clip,
    checkpoints: checkpointsOf(database, clip.id),
    marks: marksOf(database, clip.id),
  }));
}
