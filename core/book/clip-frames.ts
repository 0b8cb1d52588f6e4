import * as v from 'valibot';
import { clipIndexFacts, DAMAGE_RULE, damageFits, shownFrames } from '../parse/clip-index.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { BookDatabase } from './database.ts';
import { bytesOfFrames, framesOfBytes } from './frame-table-bytes.ts';
import { noSuch } from './no-such.ts';

/**
 * A clip's index as it was at import, not yet held against a decode of the clip. It is kept, not read anew, so that a
 * mark stays on its frame even when a later Baybook reads some odd file differently.
 */
export function writeClipIndex(database: BookDatabase, clipId: string, { frames, ...facts }: ClipIndex): void {
  const sql = 'INSERT INTO clip_frames (clip_id, facts, frames, settled) VALUES (?, ?, ?, 0)';
  database.run(sql, clipId, JSON.stringify(facts), bytesOfFrames(frames));
}

/** Puts another index in its place, held against a decode of the clip or not yet. */
export function replaceClipIndex(
  database: BookDatabase,
  clipId: string,
  { frames, ...facts }: ClipIndex,
  settled: boolean,
): void {
  const sql = 'UPDATE clip_frames SET facts = ?, frames = ?, settled = ? WHERE clip_id = ?';
  database.run(sql, JSON.stringify(facts), bytesOfFrames(frames), Number(settled), clipId);
}

/** Books from before damage and dynamic range were read know of neither. */
const storedFacts = v.strictObject({
  ...clipIndexFacts.entries,
  dynamicRange: v.optional(clipIndexFacts.entries.dynamicRange, 'sdr'),
  damage: v.optional(clipIndexFacts.entries.damage, []),
});

const indexRow = v.pipe(
  v.strictObject({
    facts: v.pipe(v.string(), v.parseJson(), storedFacts),
    frames: v.pipe(
      v.instance(Uint8Array),
      v.transform((bytes): unknown => framesOfBytes(bytes)),
      shownFrames,
    ),
  }),
  v.transform(({ facts, frames }): ClipIndex => ({ ...facts, frames })),
  v.check((index) => damageFits(index), DAMAGE_RULE),
);

/** @throws AppError `no-such-record`, `book-damaged`. */
export function readClipIndex(database: BookDatabase, clipId: string): ClipIndex {
  const row = database.one(indexRow, 'SELECT facts, frames FROM clip_frames WHERE clip_id = ?', clipId);
  if (row === null) throw noSuch('clip', clipId);
  return row;
}
