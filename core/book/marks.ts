import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { BodyPointId } from '../model/body-points.ts';
import { AppError } from '../model/errors.ts';
import type { FrameMarks, PlacedPoint, Shape } from '../model/mark.ts';
import { argument } from '../parse/argument.ts';
import { bodyPoint, frameMarks, proposedPlace, shape as shapeSchema } from '../parse/marks.ts';
import { countFromZero, finiteNumber, positive, wholeNumber } from '../parse/scalars.ts';
import { requireClip } from './clips.ts';
import type { BookDatabase } from './database.ts';
import { frameOfClip } from './frame-of-clip.ts';
import { grouped } from '../model/grouped.ts';
import { flag } from './rows.ts';

export interface MarkOperations {
  /**
   * Replaces all that is marked on one frame; marks with no point and no shape leave the frame unmarked. Coordinates
   * are kept to the last bit (minus zero becomes zero).
   * @throws AppError `bad-request` when a mark is not right, the frame is not of this clip, or a shape's id stands on
   *   another frame; `no-such-record`.
   */
  saveMarks(clipId: string, marks: FrameMarks): void;
  /** All marked frames of a clip in presentation order. @throws AppError `no-such-record`. */
  readMarks(clipId: string): readonly FrameMarks[];
}

export function markOperations(database: BookDatabase): MarkOperations {
  return {
    saveMarks(clipId, marks) {
      const checked = argument(frameMarks, marks, say`the marks`);
      database.write(() => {
        const { index, pts } = frameOfClip(database, clipId, checked.frame);
        database.run('DELETE FROM marked_frame WHERE clip_id = ? AND frame_index = ?', clipId, index);
        const points = Object.entries(checked.points);
        if (points.length === 0 && checked.shapes.length === 0) return;
        const frame = { clip_id: clipId, frame_index: index };
        database.insert('marked_frame', { ...frame, pts });
        for (const [id, { x, y, hidden, guess = null, proposed }] of points) {
          const kept = proposed === undefined ? null : JSON.stringify(proposed);
          database.insert('placed_point', { ...frame, body_point: id, x, y, hidden, guess, proposed: kept });
        }
        checked.shapes.forEach((shape, position) => {
          insertShape(database, clipId, index, position, shape);
        });
      });
    },

    readMarks: (clipId) =>
      database.read(() => {
        requireClip(database, clipId);
        return marksOf(database, clipId);
      }),
  };
}

function insertShape(database: BookDatabase, clipId: string, index: number, position: number, shape: Shape): void {
  const sql =
    'INSERT INTO shape (id, clip_id, frame_index, position, geometry) VALUES (?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING';
  const added = database.run(sql, shape.id, clipId, index, position, JSON.stringify(shape));
  if (added === 0) throw new AppError('bad-request', say`Shape ${shape.id} already stands on another frame.`);
}

const frameRow = v.strictObject({ frame_index: countFromZero, pts: wholeNumber });
const pointRow = v.strictObject({
  frame_index: countFromZero,
  body_point: bodyPoint,
  x: finiteNumber,
  y: finiteNumber,
  hidden: flag,
  guess: v.nullable(positive),
  proposed: v.nullable(v.pipe(v.string(), v.parseJson(), proposedPlace)),
});
const shapeRow = v.strictObject({
  frame_index: countFromZero,
  geometry: v.pipe(v.string(), v.parseJson(), shapeSchema),
});

/** All marked frames of a clip in presentation order; shapes in the order they are painted. */
export function marksOf(database: BookDatabase, clipId: string): readonly FrameMarks[] {
  const points = grouped(
    database.all(
      pointRow,
      'SELECT frame_index, body_point, x, y, hidden, guess, proposed FROM placed_point WHERE clip_id = ?',
      clipId,
    ),
    (row) => row.frame_index,
  );
  const shapes = grouped(
    database.all(shapeRow, 'SELECT frame_index, geometry FROM shape WHERE clip_id = ? ORDER BY position', clipId),
    (row) => row.frame_index,
  );
  const sql = 'SELECT frame_index, pts FROM marked_frame WHERE clip_id = ? ORDER BY frame_index';
  return database.all(frameRow, sql, clipId).map(({ frame_index, pts }) => {
    const placed: Partial<Record<BodyPointId, PlacedPoint>> = {};
    for (const { body_point, x, y, hidden, guess, proposed } of points.get(frame_index) ?? [])
      placed[body_point] = {
        ...{ x, y, hidden },
        ...(guess === null ? {} : { guess }),
        ...(proposed === null ? {} : { proposed }),
      };
    return {
      frame: { index: frame_index, pts },
      points: placed,
      shapes: (shapes.get(frame_index) ?? []).map((row) => row.geometry),
    };
  });
}
