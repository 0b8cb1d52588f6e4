import { existsSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';

/**
 * Finds an Electron that can be run now, without fetching or making anything (electron/runtime/take-electron.ts does that).
 *
 * Two are known: the one package.json pins, and, where its download is out of reach, an unmodified older release that is
 * carried inside a registry package and prepared once into a cache folder. The carried one is the floor our built code
 * is made for (Chromium 130, Node 20.18).
 */
export interface FoundElectron {
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

export const CARRIED_ELECTRON_VERSION = '33.2.1';

/** Name of the environment variable that carries `sqliteBinding` into the main process. */
export const SQLITE_BINDING_VARIABLE = 'BAYBOOK_SQLITE_BINDING';

/** The first runnable Electron in the order pinned, carried; null when there is none yet. */
export function findElectron(projectFolder: string, environment: NodeJS.ProcessEnv): FoundElectron | null {
  return findPinnedElectron(projectFolder) ?? findCarriedElectron(projectFolder, environment);
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

/** The carried Electron, if it stands whole in the cache together with the SQLite binary for the installed package. */
export function findCarriedElectron(projectFolder: string, environment: NodeJS.ProcessEnv): FoundElectron | null {
  const folder = getCarriedFolder(environment);
  const sqliteVersion = getPackageVersion(projectFolder, 'better-sqlite3');
  if (sqliteVersion === null) return null;
  const executable = join(folder, 'electron');
  const sqliteBinding = getCarriedBindingPath(folder, sqliteVersion);
  if (!existsSync(executable) || !existsSync(sqliteBinding)) return null;
  return { kind: 'carried', version: CARRIED_ELECTRON_VERSION, executable, sqliteBinding };
}

/** Where the carried Electron stands once prepared; outside the project, so that every checkout shares it. */
export function getCarriedFolder(environment: NodeJS.ProcessEnv): string {
  // The XDG base directory specification: an unset or relative XDG_CACHE_HOME means ~/.cache.
  const stated = environment['XDG_CACHE_HOME'];
  const cache = stated !== undefined && stated.startsWith('/') ? stated : join(homedir(), '.cache');
  return join(cache, 'baybook', `electron-${CARRIED_ELECTRON_VERSION}`);
}

/** The SQLite binary beside the carried Electron, named by the version of better-sqlite3 it was made from. */
export function getCarriedBindingPath(carriedFolder: string, sqlitePackageVersion: string): string {
  return join(carriedFolder, `better-sqlite3-${sqlitePackageVersion}.node`);
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
