import { statSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { findPinnedElectron, getPackageVersion, type FoundElectron } from '../../core/runtime/find-electron.ts';
import { meetNeeds, WINDOW_NEEDS } from '../bare-machine/debian-packages.ts';
import { findCarriedElectron, getCarriedFolder } from '../bare-machine/find-carried.ts';
import { takeCarriedElectron } from '../bare-machine/take-carried.ts';
import { describeFailure, runCommand, type CommandEnd } from './run-command.ts';

/** A download of 120 MB on an ordinary line. Out of reach it mostly fails within a second. */
const DOWNLOAD_LIMIT = 3 * 60_000;
/** With a carried Electron at hand, a download that failed is not tried again for a day: starts should be quick. */
const DOWNLOAD_PAUSE = 24 * 3_600_000;

/**
 * Gets an Electron that can be run, fetching and preparing it where needed, and the shared libraries it wants. The order:
 * the pinned one if it is there, the pinned one's download, the carried one (Linux x64 only).
 *
 * Throws AppError `runtime-missing` with one sentence that says what to do.
 */
export async function takeElectron(projectFolder: string, say: (line: string) => void): Promise<FoundElectron> {
  await meetNeeds(WINDOW_NEEDS, say);
  const found = findPinnedElectron(projectFolder) ?? (await downloadPinned(projectFolder, say));
  const taken = found ?? (await takeCarriedElectron(projectFolder, say));
  say(describeElectron(taken));
  return taken;
}

export function describeElectron(found: FoundElectron): string {
  return found.kind === 'pinned'
    ? `Running on Electron ${found.version}.`
    : `Running on the carried Electron ${found.version} (the pinned one is out of reach).`;
}

/** Asks the electron package to fetch its binary. Quiet: where it is out of reach, one line says why. */
async function downloadPinned(projectFolder: string, say: (line: string) => void): Promise<FoundElectron | null> {
  const version = getPackageVersion(projectFolder, 'electron');
  if (version === null)
    throw new AppError('runtime-missing', 'The packages are not installed; run npm ci in the project folder first.');
  const failure = `${getCarriedFolder(process.env)}.because-${version}-failed`;
  const failedAt = statSync(failure, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const carriedReady = findCarriedElectron(projectFolder, process.env) !== null;
  if (carriedReady && Date.now() - failedAt < DOWNLOAD_PAUSE) return null;
  say(`Fetching Electron ${version} ...`);
  const installer = join(projectFolder, 'node_modules', 'electron', 'install.js');
  const end = await runCommand(process.execPath, [installer], { timeLimit: DOWNLOAD_LIMIT });
  const found = findPinnedElectron(projectFolder);
  if (found !== null) return found;
  const cause = describeDownloadFailure(end);
  say(`Electron ${version} could not be fetched (${cause}).`);
  await mkdir(dirname(failure), { recursive: true });
  await writeFile(failure, `${cause}\n`);
  return null;
}

/** The installer's stack trace in words a person can use. */
function describeDownloadFailure(end: CommandEnd): string {
  if (end.timedOut) return 'the download took too long';
  const outOfReach = /fetch failed|ENOTFOUND|EAI_AGAIN|ECONN|ETIMEDOUT|ENETUNREACH/.test(end.errorTail);
  return outOfReach ? 'its download is out of reach' : describeFailure(end);
}
