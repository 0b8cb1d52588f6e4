import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { Clip, KeptPart } from '../model/book.ts';
import { AppError } from '../model/errors.ts';
import type { CaptureRate } from '../model/frame.ts';
import { VIEW_LABELS } from '../model/words.ts';
import type { View } from '../model/words.ts';
import { argument } from '../parse/argument.ts';
import { clipIndex as clipIndexSchema } from '../parse/clip-index.ts';
import { captureRate as captureRateSchema } from '../parse/frames.ts';
import { countFromOne, countFromZero, sha256, view as viewSchema } from '../parse/scalars.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { readClipIndex, writeClipIndex } from './clip-frames.ts';
import type { BookDatabase } from './database.ts';
import type { MediaFolder, StoredClipFile } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { CLIP_COLUMNS, clipRow } from './rows.ts';

export interface NewClip {
  readonly swingId: string;
  readonly view: View;
  /** Name of the file as the coach chose it, without its folder. */
  readonly originalName: string;
  /** What `storeClipFile` answered. */
  readonly file: StoredClipFile;
  /** What was read from the file; kept for good. */
  readonly index: ClipIndex;
  /** Where the clip lies in the file with the original name, when it is only a part of it. */
  readonly kept?: KeptPart | null;
  /** `file` is still the whole clip, of which the part is to be taken (take-part.ts). Left out = no. */
  readonly coming?: boolean;
}

export interface ClipOperations {
  /** @throws AppError `bad-request` when the swing has a clip of that view, `file-not-found`, `no-such-record`. */
  addClip(clip: NewClip): Clip;
  /** @throws AppError `no-such-record`. */
  findClip(id: string): Clip;
  /** Removes its marks as well, and its media file unless another clip uses it. @throws AppError `no-such-record`. */
  removeClip(id: string): void;
  /** SHA-256 of every clip's file, 64 hex digits in lower case. */
  clipContents(): ReadonlySet<string>;
  /** The frame table as it was at import. @throws AppError `no-such-record`. */
  clipIndex(id: string): ClipIndex;
  /** @throws AppError `bad-request`, `no-such-record`. */
  setCaptureRate(id: string, rate: CaptureRate | null): void;
  /** @throws AppError `bad-request` when the swing has another clip of that view, `no-such-record`. */
  setView(id: string, view: View): void;
}

/** @throws AppError `no-such-record`. */
export function requireClip(database: BookDatabase, id: string): Clip {
  const clip = database.one(clipRow, `SELECT ${CLIP_COLUMNS} FROM clip WHERE id = ?`, id);
  if (clip === null) throw noSuch('clip', id);
  return clip;
}

const contentRow = v.strictObject({ sha256 });
const keptRule = v.strictObject({ first: countFromZero, of: countFromOne });
const originalNameRule = v.pipe(v.string('must be text'), v.nonEmpty('must not be empty'));

export function clipOperations(database: BookDatabase, media: MediaFolder): ClipOperations {
  return {
    addClip({ swingId, view, originalName, file, index, kept = null, coming = false }) {
      argument(viewSchema, view, say`the view`);
      argument(originalNameRule, originalName, say`the name of the clip file`);
      const facts = argument(clipIndexSchema, index, say`the frame table`);
      const part = argument(v.nullable(keptRule), kept, say`the part of the clip`);
      if (part !== null && part.first + facts.frames.length > part.of)
        throw new Error(`a part of ${facts.frames.length} frames from ${part.first} on does not lie within ${part.of}`);
      return database.write(() => {
        if (database.one(v.unknown(), 'SELECT id FROM swing WHERE id = ?', swingId) === null)
          throw noSuch('swing', swingId);
        refuseSecondClip(database, swingId, view);
        const id = randomUUID();
        const rate = facts.captureRate;
        database.run(
          `INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
             timebase_num, timebase_den, rate_num, rate_den, capture_num, capture_den, capture_confirmed, frame_count,
             kept_first, kept_of, coming)
             VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
          ...[id, swingId, view, originalName, file.sha256, file.bytes, file.how],
          ...[media.keep(file), file.modifiedMs, facts.width, facts.height, facts.timebase.num, facts.timebase.den],
          ...[facts.nominalRate?.num ?? null, facts.nominalRate?.den ?? null],
          ...captureCells(rate),
          ...[facts.frames.length, part?.first ?? null, part?.of ?? null, Number(coming)],
        );
        writeClipIndex(database, id, facts);
        return requireClip(database, id);
      });
    },

    findClip: (id) => requireClip(database, id),

    removeClip(id) {
      media.removing(() => {
        if (database.run('DELETE FROM clip WHERE id = ?', id) === 0) throw noSuch('clip', id);
      });
    },

    clipContents: () => new Set(database.all(contentRow, 'SELECT DISTINCT sha256 FROM clip').map((row) => row.sha256)),

    clipIndex: (id) => readClipIndex(database, id),

    setCaptureRate(id, rate) {
      const checked = argument(v.nullable(captureRateSchema), rate, say`the capture rate`);
      const sql = 'UPDATE clip SET capture_num = ?, capture_den = ?, capture_confirmed = ? WHERE id = ?';
      if (database.run(sql, ...captureCells(checked), id) === 0) throw noSuch('clip', id);
    },

    setView(id, view) {
      argument(viewSchema, view, say`the view`);
      database.write(() => {
        const clip = requireClip(database, id);
        if (clip.view === view) return;
        refuseSecondClip(database, clip.swingId, view);
        database.run('UPDATE clip SET view = ? WHERE id = ?', view, id);
      });
    },
  };
}

function captureCells(rate: CaptureRate | null): [number | null, number | null, number | null] {
  if (rate === null) return [null, null, null];
  return [rate.framesPerSecond.num, rate.framesPerSecond.den, rate.confirmed ? 1 : 0];
}

function refuseSecondClip(database: BookDatabase, swingId: string, view: View): void {
  const taken = database.one(v.unknown(), 'SELECT id FROM clip WHERE swing_id = ? AND view = ?', swingId, view);
  if (taken === null) return;
  throw new AppError(
    'bad-request',
    say`This swing already has a clip of the view "${VIEW_LABELS[view]}". Remove that one, or use another swing.`,
  );
}
