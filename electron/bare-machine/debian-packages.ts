import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { describeFailure, runCommand } from '../runtime/run-command.ts';

/** Something of the machine that we cannot bring along: a command on the PATH or a shared library. */
export interface Need {
  readonly kind: 'command' | 'library';
  readonly name: string;
  /** The Debian package it comes in. */
  readonly debianPackage: string;
}

/** What any Electron needs to show a window on Linux. */
export const WINDOW_NEEDS: readonly Need[] = [
  { kind: 'library', name: 'libgtk-3.so.0', debianPackage: 'libgtk-3-0' },
  { kind: 'library', name: 'libnss3.so', debianPackage: 'libnss3' },
  { kind: 'library', name: 'libgbm.so.1', debianPackage: 'libgbm1' },
  { kind: 'library', name: 'libasound.so.2', debianPackage: 'libasound2' },
];
/** What preparing the carried Electron needs besides. */
export const CARRY_NEEDS: readonly Need[] = [
  { kind: 'command', name: 'unzip', debianPackage: 'unzip' },
  { kind: 'command', name: 'gcc', debianPackage: 'gcc' },
  { kind: 'command', name: 'g++', debianPackage: 'g++' },
];
/** What window tests need on a machine without a screen. */
export const SCREENLESS_TEST_NEEDS: readonly Need[] = [{ kind: 'command', name: 'Xvfb', debianPackage: 'xvfb' }];
/** What the test needs that watches every connection of the whole program. */
export const WATCH_NEEDS: readonly Need[] = [{ kind: 'command', name: 'strace', debianPackage: 'strace' }];
export const FFMPEG_NEED: Need = { kind: 'command', name: 'ffmpeg', debianPackage: 'ffmpeg' };

const INSTALL_LIMIT = 15 * 60_000;

/** The needs that this machine does not meet. On anything but Linux all count as met: the programs bring their own. */
export async function findMissing(needs: readonly Need[]): Promise<Need[]> {
  if (process.platform !== 'linux') return [];
  // ldconfig stands in /sbin, which an ordinary user's PATH may leave out.
  const known = await runCommand('/sbin/ldconfig', ['-p'], { timeLimit: 10_000 });
  const libraries = new Set(known.output.split('\n').map((line) => line.trim().split(' ')[0]));
  const listed = known.exitCode === 0;
  // Where the list cannot be had, libraries get the benefit of the doubt: Electron itself will name what it misses.
  return needs.filter((need) => (need.kind === 'library' ? listed && !libraries.has(need.name) : !isOnPath(need.name)));
}

/**
 * Sees to it that the needs are met: on Debian as root it installs the packages that are missing (and says so),
 * elsewhere it throws AppError `runtime-missing` with one sentence that names them.
 */
export async function meetNeeds(needs: readonly Need[], say: (line: string) => void): Promise<void> {
  const missing = await findMissing(needs);
  if (missing.length === 0) return;
  const packages = [...new Set(missing.map((need) => need.debianPackage))].join(' ');
  if (!mayInstall()) throw new AppError('runtime-missing', describeMissing(missing));
  say(`Installing what this machine lacks, from Debian: ${packages} ...`);
  const environment = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const options = { timeLimit: INSTALL_LIMIT, environment };
  const updated = await runCommand('apt-get', ['update', '-qq'], options);
  const installed = await runCommand(
    'apt-get',
    ['install', '-y', '-qq', '--no-install-recommends', '-o', 'DPkg::Lock::Timeout=300', ...packages.split(' ')],
    options,
  );
  if (installed.exitCode === 0) return;
  const cause = describeFailure(updated.exitCode === 0 ? installed : updated);
  throw new AppError('runtime-missing', `${packages} could not be installed (${cause}); install them by hand.`, {
    detail: { errorTail: installed.errorTail, exitCode: installed.exitCode },
  });
}

/** One sentence that names what is missing and how it is had. */
export function describeMissing(missing: readonly Need[]): string {
  const names = missing.map((need) => need.name).join(', ');
  const packages = [...new Set(missing.map((need) => need.debianPackage))].join(' ');
  return `This machine lacks ${names}; on Debian install them with: sudo apt-get install ${packages}`;
}

/** Whether missing Debian packages can be installed without asking: Debian, as root. */
export function mayInstall(): boolean {
  return process.getuid?.() === 0 && existsSync('/etc/debian_version') && isOnPath('apt-get');
}

function isOnPath(command: string): boolean {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return folders.some((folder) => folder !== '' && existsSync(join(folder, command)));
}
