import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** Clips that nobody on this project made, beside the project's own folder; never part of it. */
const FOLDER = resolve(import.meta.dirname, '..', '..', '..', 'shared', 'media');

/**
 * The path of one outside file, e.g. `timing/bipbop.mp4`, or null on a machine without them: then one line says how many
 * checks are left out. With CI=true their absence is a failure.
 */
export function outsideMedia(file: string, checks: number): string | null {
  const path = join(FOLDER, file);
  if (existsSync(path)) return path;
  if (process.env['CI'] === 'true') throw new Error(`${path} is missing; the outside media belong to the checks`);
  console.warn(`Left out ${checks} checks on ${file}: the outside media are not on this machine.`);
  return null;
}

/** The path of one outside file. @throws Error where it is missing: what needs it fails. */
export function requireOutsideMedia(file: string): string {
  const path = join(FOLDER, file);
  if (!existsSync(path)) throw new Error(`${path} is missing; the outside media belong to the checks`);
  return path;
}
