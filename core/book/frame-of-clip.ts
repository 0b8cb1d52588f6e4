import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { CheckpointFrame, FrameRef } from '../model/frame.ts';
import { argument } from '../parse/argument.ts';
import { frameRef } from '../parse/frames.ts';
import { countFromOne } from '../parse/scalars.ts';
import { readClipIndex } from './clip-frames.ts';
import { frameWithPts } from '../time/frame-table.ts';
import type { BookDatabase } from './database.ts';
import { wasNamed } from './earlier-numbers.ts';
import { BYTES_PER_FRAME, framesOfBytes } from './frame-table-bytes.ts';
import { noSuch } from './no-such.ts';

const row = v.strictObject({ frame_count: countFromOne, bytes: v.instance(Uint8Array) });

/**
 * Looks a frame up in the clip's own table, so that nothing is ever stored for a frame the clip does not have. One that is
 * named as it was before the clip was settled comes back with the number it has now.
 *
 * @throws AppError `no-such-record` for the clip, `bad-request` when the frame is not of this clip.
 */
export function frameOfClip(database: BookDatabase, clipId: string, frame: FrameRef): CheckpointFrame {
  const { index, pts } = argument(v.object(frameRef.entries), frame, say`the frame`);
  const found = database.one(
    row,
    `SELECT frame_count, substr(frames, ?, ?) AS bytes
       FROM clip JOIN clip_frames ON clip_frames.clip_id = clip.id WHERE clip.id = ?`,
    index * BYTES_PER_FRAME + 1,
    BYTES_PER_FRAME,
    clipId,
  );
  if (found === null) throw noSuch('clip', clipId);
  const stored = framesOfBytes(found.bytes)?.[0];
  if (index < found.frame_count && stored?.pts === pts) return { index, pts, ticks: stored.ticks };
  if (wasNamed(database, clipId, { index, pts })) {
    const now = readClipIndex(database, clipId);
    const place = frameWithPts(now, pts);
    const shown = place === null ? undefined : now.frames[place];
    if (place !== null && shown !== undefined) return { index: place, pts, ticks: shown.ticks };
  }
  if (index >= found.frame_count)
    throw new AppError(
      'bad-request',
      say`The clip has ${String(found.frame_count)} frames; there is no frame ${String(index)}.`,
    );
  throw new AppError(
    'bad-request',
    say`Frame ${String(index)} of the clip does not have the time stamp ${String(pts)}.`,
  );
}
