import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { fileIdentity } from '../files/file-identity.ts';
import { requireFile } from '../files/find-file.ts';
import { unlessSilent } from '../files/unless-silent.ts';
import { userCacheFolder } from '../files/user-cache.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { ReadOptions } from '../video/index/clip-source.ts';
import { readClipIndex } from '../video/index/read-clip-index.ts';
import { KeptTables } from './kept-tables.ts';

/** Raised when a table would be read differently from the same file. */
const TABLE_RECIPE = 1;

/**
 * A clip's frame table, held against a decode of all of it. That is done once for a file as it is: the table is kept in
 * the user's cache by what the file is (`fileIdentity`) and which ffmpeg read it.
 *
 * @throws AppError as `readClipIndex`.
 */
export async function readVerifiedIndex(path: string, options: ReadOptions): Promise<ClipIndex> {
  const cache = userCacheFolder(process.env);
  const tables = cache === null ? null : new KeptTables(join(cache, 'tables'));
  const before = tables === null ? null : await keyOf(path, options);
  const known = before === null ? null : await tables?.read(before);
  if (known) return known;
  const index = await readClipIndex(path, { ...options, verify: true });
  // A file that changed while it was decoded is none of which anything is known.
  if (before !== null && before === (await keyOf(path, options))) await tables?.keep(before, index);
  return index;
}

/** Null for a file that cannot be named so; reading it says why. */
async function keyOf(path: string, { ffmpeg }: ReadOptions): Promise<string | null> {
  const identity = await requireFile(path)
    .then(() => unlessSilent(fileIdentity(path), path))
    .catch(() => null);
  if (identity === null) return null;
  return createHash('sha256').update(`${TABLE_RECIPE} ${ffmpeg.version} ${identity}`).digest('hex');
}
