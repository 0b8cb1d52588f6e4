import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { KeptPart } from '../model/book.ts';
import { argument } from '../parse/argument.ts';
import { clipIndex as clipIndexSchema } from '../parse/clip-index.ts';
import { identifier } from '../parse/scalars.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { numbersDiffer } from '../time/settle-index.ts';
import { readClipIndex, replaceClipIndex } from './clip-frames.ts';
import { requireClip } from './clips.ts';
import type { BookDatabase } from './database.ts';
import type { MediaFolder, StoredClipFile } from './media-folder.ts';
import { moveFrames, type FramePlaces } from './move-frames.ts';
import { giveNewId, presentId } from './successors.ts';

/** A part of a clip that was cut out, checked and stored; or the whole in its place, where it cannot be cut. */
export interface TakenPart {
  /** What `storeClipFile` answered; a copy. */
  readonly file: StoredClipFile;
  /** What was read from that file. */
  readonly index: ClipIndex;
  /** Where it lies in the file that the coach chose; null: it is all of it. */
  readonly kept: KeptPart | null;
}

export interface PartOperations {
  /** Clips whose part is still to be taken, in the order they came. */
  comingClips(): readonly string[];
  /**
   * Puts the file of a part in the place of the whole, which was read until then. Frames that it has more at its beginning
   * move all numbers: the clip then goes on under a new id, and names, marks and edits stay on their pictures. Answers with
   * its id.
   *
   * @throws AppError `no-such-record`.
   */
  takePart(clipId: string, part: TakenPart): string;
  /** The id that a clip has now. */
  presentClip(clipId: string): string;
}

const idRow = v.strictObject({ id: identifier });

export function partOperations(database: BookDatabase, media: MediaFolder): PartOperations {
  return {
    comingClips: () => database.all(idRow, 'SELECT id FROM clip WHERE coming = 1 ORDER BY number').map(({ id }) => id),

    presentClip: (clipId) => presentId(database, clipId),

    takePart(clipId, { file, index, kept }) {
      const now = argument(clipIndexSchema, index, say`the frame table`);
      return database.write(() => {
        const clip = requireClip(database, clipId);
        if (clip.coming !== true || clip.kept === null) throw new Error('its part was taken already');
        const before = readClipIndex(database, clipId);
        const shift = clip.kept.first - (kept?.first ?? 0);
        if (shift < 0 || now.frames.length < before.frames.length + shift)
          throw new Error(
            `a part of ${now.frames.length} frames does not hold ${before.frames.length} from ${shift} on`,
          );
        database.run(
          `UPDATE clip SET coming = 0, stored = ?, sha256 = ?, bytes = ?, file = ?, modified_ms = ?, frame_count = ?,
             rate_num = ?, rate_den = ?, timebase_num = ?, timebase_den = ?, kept_first = ?, kept_of = ? WHERE id = ?`,
          ...[file.how, file.sha256, file.bytes, media.keep(file), file.modifiedMs, now.frames.length],
          ...[now.nominalRate?.num ?? null, now.nominalRate?.den ?? null, now.timebase.num, now.timebase.den],
          ...[kept?.first ?? null, kept?.of ?? null, clipId],
        );
        replaceClipIndex(database, clipId, now, false);
        if (!numbersDiffer(before.frames, now.frames)) return clipId;
        const placeOf: FramePlaces = (frame) => {
          const place = frame.index + shift;
          const shown = now.frames[place];
          return shown === undefined ? null : { index: place, pts: shown.pts, ticks: shown.ticks };
        };
        moveFrames(database, clipId, placeOf);
        return giveNewId(database, clipId, placeOf);
      });
    },
  };
}
