import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** An Electron that can be run. */
export interface FoundElectron {
  /** The one that package.json pins, or an older release that a bare machine carries (electron/bare-machine). */
  readonly kind: 'pinned' | 'carried';
  readonly version: string;
  /** Absolute path of the executable. */
  readonly executable: string;
  /**
   * Absolute path of the better-sqlite3 binary made for this Electron, or null when the one in the package serves.
   * It travels to the main process in the environment variable BAYBOOK_SQLITE_BINDING.
   */
  readonly sqliteBinding: string | null;
}

/** The pinned Electron, if its binary has been fetched and is of the version that its package names. */
export function findPinnedElectron(projectFolder: string): FoundElectron | null {
  const folder = join(projectFolder, 'node_modules', 'electron');
  const version = getPackageVersion(projectFolder, 'electron');
  const binaryName = readText(join(folder, 'path.txt'));
  if (version === null || binaryName === null) return null;
  // A leftover binary of an earlier version would run, and then fail in ways that nobody could explain.
  if (readText(join(folder, 'dist', 'version'))?.replace(/^v/, '') !== version) return null;
  const executable = join(folder, 'dist', binaryName);
  return existsSync(executable) ? { kind: 'pinned', version, executable, sqliteBinding: null } : null;
}

/** The version an installed package states, or null when it is not installed. */
export function getPackageVersion(projectFolder: string, name: string): string | null {
  const text = readText(join(projectFolder, 'node_modules', name, 'package.json'));
  if (text === null) return null;
  const parsed: unknown = JSON.parse(text);
  if (typeof parsed !== 'object' || parsed === null || !('version' in parsed)) return null;
  return typeof parsed.version === 'string' ? parsed.version : null;
}

function readText(path: string): string | null {
  return existsSync(path) ? readFileSync(path, 'utf8').trim() : null;
}
