import { resolve } from 'node:path';
import { say } from '../model/say.ts';
import { hashFile } from '../files/hash-file.ts';
import { AppError } from '../model/errors.ts';
import type { SwingFileClip } from '../model/swing-file.ts';

/**
 * Finds the clip a swing file speaks of and makes sure that it is that clip; returns its absolute path. `folder` is the
 * one `readSwingFile` gave.
 *
 * @throws AppError `clip-moved` when no file is there, `clip-changed` when its bytes differ, `file-unreadable`.
 */
export async function clipFileOf(
  clip: Pick<SwingFileClip, 'file' | 'sha256'>,
  folder: string,
  options: { signal?: AbortSignal | undefined } = {},
): Promise<string> {
  const path = resolve(folder, clip.file);
  const { sha256 } = await hashFile(path, options).catch((error: unknown) => {
    if (!(error instanceof AppError) || error.code !== 'file-not-found') throw error;
    throw new AppError(
      'clip-moved',
      say`The swing file names the clip ${path}, which is not there. Put the clip there, or correct "file" in the swing file.`,
      { cause: error, detail: { path } },
    );
  });
  if (sha256 !== clip.sha256)
    throw new AppError(
      'clip-changed',
      say`${path} is not the clip this swing was marked on: its content differs. Put that clip back in its place.`,
      { detail: { path, expected: clip.sha256, found: sha256 } },
    );
  return path;
}
