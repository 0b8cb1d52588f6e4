import * as v from 'valibot';
import { clipIndexFacts, shownFrames } from '../parse/clip-index.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { BookDatabase } from './database.ts';
import { bytesOfFrames, framesOfBytes } from './frame-table-bytes.ts';
import { noSuch } from './no-such.ts';

/**
 * A clip's index as it was at import. It is kept, not read anew, so that a mark stays on its frame even when a later
 * Baybook reads some odd file differently.
 */
export function writeClipIndex(database: BookDatabase, clipId: string, { frames, ...facts }: ClipIndex): void {
  const sql = 'INSERT INTO clip_frames (clip_id, facts, frames) VALUES (?, ?, ?)';
  database.run(sql, clipId, JSON.stringify(facts), bytesOfFrames(frames));
}

const indexRow = v.strictObject({
  facts: v.pipe(v.string(), v.parseJson(), clipIndexFacts),
  frames: v.pipe(
    v.instance(Uint8Array),
    v.transform((bytes): unknown => framesOfBytes(bytes)),
    shownFrames,
  ),
});

/** @throws AppError `no-such-record`, `book-damaged`. */
export function readClipIndex(database: BookDatabase, clipId: string): ClipIndex {
  const row = database.one(indexRow, 'SELECT facts, frames FROM clip_frames WHERE clip_id = ?', clipId);
  if (row === null) throw noSuch('clip', clipId);
  return { ...row.facts, frames: row.frames };
}
