import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { CheckpointFrame, FrameRef } from '../model/frame.ts';
import type { Checkpoint } from '../model/words.ts';
import { argument } from '../parse/argument.ts';
import { checkpoint as checkpointName } from '../parse/frames.ts';
import { countFromOne, countFromZero, wholeNumber } from '../parse/scalars.ts';
import { requireClip } from './clips.ts';
import type { BookDatabase } from './database.ts';
import { frameOfClip } from './frame-of-clip.ts';

export interface CheckpointOperations {
  /**
   * Names a frame; a frame may bear several names, a name stands on one frame. With null the name is taken away.
   * @throws AppError `bad-request` when the frame is not of this clip, `no-such-record`.
   */
  setCheckpoint(clipId: string, checkpoint: Checkpoint, frame: FrameRef | null): CheckpointFrame | null;
}

export function checkpointOperations(database: BookDatabase): CheckpointOperations {
  return {
    setCheckpoint: (clipId, checkpoint, frame) =>
      database.write(() => {
        argument(checkpointName, checkpoint, say`the checkpoint`);
        requireClip(database, clipId);
        database.run('DELETE FROM checkpoint WHERE clip_id = ? AND checkpoint = ?', clipId, checkpoint);
        if (frame === null) return null;
        const named = frameOfClip(database, clipId, frame);
        const { index, pts, ticks } = named;
        database.insert('checkpoint', { clip_id: clipId, checkpoint, frame_index: index, pts, ticks });
        return named;
      }),
  };
}

const checkpointRow = v.strictObject({
  checkpoint: checkpointName,
  frame_index: countFromZero,
  pts: wholeNumber,
  ticks: countFromOne,
});

/** The named frames of a clip. */
export function checkpointsOf(
  database: BookDatabase,
  clipId: string,
): Readonly<Partial<Record<Checkpoint, CheckpointFrame>>> {
  const named: Partial<Record<Checkpoint, CheckpointFrame>> = {};
  const sql = 'SELECT checkpoint, frame_index, pts, ticks FROM checkpoint WHERE clip_id = ? ORDER BY frame_index';
  for (const { checkpoint, frame_index, pts, ticks } of database.all(checkpointRow, sql, clipId))
    named[checkpoint] = { index: frame_index, pts, ticks };
  return named;
}
