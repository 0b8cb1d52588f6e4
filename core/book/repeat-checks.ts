import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { PicturePoint } from '../model/mark.ts';
import { repeatFrameOf } from '../model/repeat-check.ts';
import type { NewRepeatCheck, RepeatCheck, RepeatFrame } from '../model/repeat-check.ts';
import { argument } from '../parse/argument.ts';
import { checkpoint } from '../parse/frames.ts';
import { bodyPoint, shape } from '../parse/marks.ts';
import { instant } from '../parse/instant.ts';
import { newRepeatCheck, repeatNaming } from '../parse/repeat-check.ts';
import {
  countFromOne,
  countFromZero,
  finiteNumber,
  handedness,
  identifier,
  view,
  wholeNumber,
} from '../parse/scalars.ts';
import { checkpointsOf } from './checkpoints.ts';
import { requireClip } from './clips.ts';
import type { BookDatabase } from './database.ts';
import { frameOfClip } from './frame-of-clip.ts';
import { grouped } from '../model/grouped.ts';
import { marksOf } from './marks.ts';
import { noSuch } from './no-such.ts';

export interface RepeatCheckOperations {
  /**
   * Keeps a finished repeat check with what the book knows of its frames at this moment; from then on it does not depend
   * on their clips.
   * @throws AppError `bad-request` when a place is not right or a frame is not of its clip; `no-such-record`.
   */
  addRepeatCheck(check: NewRepeatCheck): RepeatCheck;
  /** Every check that was kept, the newest first, with each placing of each round. */
  listRepeatChecks(): readonly RepeatCheck[];
  /** @throws AppError `no-such-record`. */
  removeRepeatCheck(id: string): void;
}

export function repeatCheckOperations(database: BookDatabase): RepeatCheckOperations {
  return {
    addRepeatCheck(check) {
      const { at, frames, namings } = argument(newRepeatCheck, check, say`the repeat check`);
      return database.write(() => {
        const described = frames.map((frame) => describe(database, frame));
        const kept: RepeatCheck = { id: randomUUID(), at, frames: described, namings };
        for (const { clipId } of namings) requireClip(database, clipId);
        database.insert('repeat_check', { id: kept.id, at, namings: JSON.stringify(namings) });
        kept.frames.forEach((frame, position) => {
          insertFrame(database, kept.id, position, frame);
        });
        return kept;
      });
    },

    listRepeatChecks: () =>
      database.read(() =>
        database
          .all(checkRow, 'SELECT id, at, namings FROM repeat_check ORDER BY at DESC, id')
          .map((row): RepeatCheck => ({ ...row, frames: framesOf(database, row.id) })),
      ),

    removeRepeatCheck(id) {
      if (database.run('DELETE FROM repeat_check WHERE id = ?', id) === 0) throw noSuch('repeat check', id);
    },
  };
}

const lessonHand = v.pipe(
  v.strictObject({ handedness }),
  v.transform((row) => row.handedness),
);

function describe(database: BookDatabase, placed: NewRepeatCheck['frames'][number]): RepeatFrame {
  const { clipId, placings } = placed;
  const clip = requireClip(database, clipId);
  const frame = frameOfClip(database, clipId, placed.frame);
  const sql = 'SELECT handedness FROM lesson JOIN swing ON swing.lesson_id = lesson.id WHERE swing.id = ?';
  const hand = database.one(lessonHand, sql, clip.swingId);
  if (hand === null) throw noSuch('swing', clip.swingId);
  const marked = { ...clip, checkpoints: checkpointsOf(database, clipId), marks: marksOf(database, clipId) };
  return repeatFrameOf(marked, hand, { clipId, frame, placings });
}

function insertFrame(database: BookDatabase, checkId: string, position: number, frame: RepeatFrame): void {
  const { clipId, frame: of, checkpoints, shapes, placings, ...rest } = frame;
  database.insert('repeat_frame', {
    ...{ ...rest, check_id: checkId, position, clip_id: clipId, frame_index: of.index, pts: of.pts },
    ...{ checkpoints: JSON.stringify(checkpoints), shapes: JSON.stringify(shapes) },
  });
  for (const [point, places] of Object.entries(placings))
    for (const [round, { x, y }] of places.entries())
      database.insert('repeat_placing', { check_id: checkId, position, body_point: point, round, x, y });
}

const checkRow = v.strictObject({
  id: identifier,
  at: instant,
  namings: v.pipe(v.string(), v.parseJson(), v.array(repeatNaming)),
});
const frameRow = v.strictObject({
  position: countFromZero,
  clip_id: identifier,
  view,
  handedness,
  frame_index: countFromZero,
  pts: wholeNumber,
  width: countFromOne,
  height: countFromOne,
  checkpoints: v.pipe(v.string(), v.parseJson(), v.array(checkpoint)),
  shapes: v.pipe(v.string(), v.parseJson(), v.array(shape)),
});
const placingRow = v.strictObject({
  position: countFromZero,
  body_point: bodyPoint,
  x: finiteNumber,
  y: finiteNumber,
});

function framesOf(database: BookDatabase, checkId: string): readonly RepeatFrame[] {
  const placed = grouped(
    database.all(
      placingRow,
      'SELECT position, body_point, x, y FROM repeat_placing WHERE check_id = ? ORDER BY position, body_point, round',
      checkId,
    ),
    (row) => row.position,
  );
  const sql = `SELECT position, clip_id, view, handedness, frame_index, pts, width, height, checkpoints, shapes
    FROM repeat_frame WHERE check_id = ? ORDER BY position`;
  return database.all(frameRow, sql, checkId).map(({ position, clip_id, frame_index, pts, ...rest }) => {
    const placings: Partial<Record<BodyPointId, PicturePoint[]>> = {};
    for (const { body_point, x, y } of placed.get(position) ?? []) (placings[body_point] ??= []).push({ x, y });
    return { ...rest, clipId: clip_id, frame: { index: frame_index, pts }, placings };
  });
}
