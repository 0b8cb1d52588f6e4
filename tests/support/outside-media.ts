import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, it } from 'vitest';

/** Clips that nobody on this project made, beside the project's own folder; never part of it. */
const FOLDER = resolve(
  process.env['BAYBOOK_OUTSIDE_MEDIA'] ?? join(import.meta.dirname, '..', '..', '..', 'shared', 'media'),
);

/** The path of one outside file, e.g. `timing/bipbop.mp4`. @throws Error where it is missing: what needs it fails. */
export function outsideMedia(file: string): string {
  const path = join(FOLDER, file);
  if (!existsSync(path)) throw new Error(`${path} is missing; the outside media belong to the checks`);
  return path;
}

/**
 * `it` for checks on outside files. On a machine without one of them they are left out and counted so, never passed; with
 * CI=true they run, and fail.
 */
export const itOn = (...files: readonly string[]): ReturnType<typeof it.skipIf> => it.skipIf(areLeftOut(files));

/** The same for `describe`. What it holds must not ask for a file before its tests run. */
export const describeOn = (...files: readonly string[]): ReturnType<typeof describe.skipIf> =>
  describe.skipIf(areLeftOut(files));

function areLeftOut(files: readonly string[]): boolean {
  return process.env['CI'] !== 'true' && files.some((file) => !existsSync(join(FOLDER, file)));
}
