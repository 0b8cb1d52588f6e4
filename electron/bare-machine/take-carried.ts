import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { getPackageVersion, type FoundElectron } from '../../core/runtime/find-electron.ts';
import { buildSqliteBinding } from './build-sqlite-binding.ts';
import { writeLoader } from './carried-loader.ts';
import { CARRY_NEEDS, meetNeeds } from './debian-packages.ts';
import {
  CARRIED_ELECTRON_VERSION,
  findCarriedElectron,
  getCarriedBindingPath,
  getCarriedFolder,
} from './find-carried.ts';
import { holdLock } from './hold-lock.ts';
import { makeCarriedElectron } from './make-carried-electron.ts';

/**
 * Gets the carried Electron with a SQLite binary for it, making in the cache what is not there yet. Linux x64 only.
 *
 * Throws AppError `runtime-missing` with one sentence that says what to do.
 */
export async function takeCarriedElectron(projectFolder: string, say: (line: string) => void): Promise<FoundElectron> {
  const ready = findCarriedElectron(projectFolder, process.env);
  if (ready !== null) {
    await writeLoader(getCarriedFolder(process.env));
    return ready;
  }
  if (process.platform !== 'linux' || process.arch !== 'x64')
    throw new AppError(
      'runtime-missing',
      'Electron could not be fetched; connect to the internet and run npx install-electron, then start again.',
    );
  await meetNeeds(CARRY_NEEDS, say);
  const folder = getCarriedFolder(process.env);
  await holdLock(
    folder,
    () => say('Another start is preparing Electron; waiting for it ...'),
    async () => {
      if (!existsSync(join(folder, 'electron'))) await makeCarriedElectron(folder, say);
      const binding = getCarriedBindingPath(folder, getPackageVersion(projectFolder, 'better-sqlite3') ?? '');
      if (existsSync(binding)) return;
      say('Building SQLite for it (about a minute, once) ...');
      await buildSqliteBinding(projectFolder, binding);
    },
  );
  const made = findCarriedElectron(projectFolder, process.env);
  if (made !== null) return made;
  throw new AppError('runtime-missing', `Electron ${CARRIED_ELECTRON_VERSION} could not be prepared; start again.`);
}
