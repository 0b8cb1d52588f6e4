import { execFile } from 'node:child_process';
import { createRequire } from 'node:module';
import { basename, resolve } from 'node:path';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';

/** An ffmpeg that was tried and answered. */
export interface Ffmpeg {
  readonly path: string;
  /** As it names itself, e.g. "5.1.9-0+deb12u1" or "N-47683-g0e8eb07980-static". */
  readonly version: string;
  /** Where it was found, in the order in which they are tried. */
  readonly from: 'setting' | 'ffmpeg-static' | 'system' | 'installer';
  /** A sentence for the coach when this one works but is not what it should be. */
  readonly warning: string | null;
}

/** The oldest release of the system's own ffmpeg that is taken. */
const OLDEST_SYSTEM_RELEASE = '5.0';
const ANSWER_LIMIT_MS = 10_000;

/**
 * Finds the ffmpeg to use: the explicit setting (or the environment variable BAYBOOK_FFMPEG), the ffmpeg-static package,
 * the system's own from release 5 on, last the binary of @ffmpeg-installer, which is a build of 2018 and so comes with
 * a warning. ffprobe is never needed.
 *
 * A setting that does not work is an error, never passed over in silence. Throws AppError `ffmpeg-missing`.
 */
export async function findFfmpeg(options: { setting?: string } = {}): Promise<Ffmpeg> {
  const set = options.setting ?? process.env['BAYBOOK_FFMPEG'] ?? '';
  if (set !== '') {
    // A path is made absolute, because ffmpeg is not always run in our own folder; a bare name is looked up on PATH.
    const setting = basename(set) === set ? set : resolve(set);
    const version = await askVersion(setting);
    if (version !== null) return { path: setting, version, from: 'setting', warning: null };
    throw new AppError(
      'ffmpeg-missing',
      say`The video program that BAYBOOK_FFMPEG names (${setting}) does not run. Correct or clear that variable of the system and start Baybook again.`,
      { detail: { path: setting } },
    );
  }

  const packaged = packagedPath('ffmpeg-static');
  if (packaged !== null) {
    const version = await askVersion(packaged);
    if (version !== null) return { path: packaged, version, from: 'ffmpeg-static', warning: null };
  }

  const systemVersion = await askVersion('ffmpeg');
  if (systemVersion !== null && isAtLeast(systemVersion, OLDEST_SYSTEM_RELEASE))
    return { path: 'ffmpeg', version: systemVersion, from: 'system', warning: null };

  const installed = packagedPath('@ffmpeg-installer/ffmpeg');
  if (installed !== null) {
    const version = await askVersion(installed);
    if (version !== null)
      return {
        path: installed,
        version,
        from: 'installer',
        warning: say`This ffmpeg was built in 2018; install ffmpeg 5 or newer so that new phones’ clips open too.`,
      };
  }

  throw new AppError(
    'ffmpeg-missing',
    systemVersion === null
      ? say`Baybook needs ffmpeg to read clips, and found none. Install ffmpeg 5 or newer (on Debian: apt-get install ffmpeg) and start Baybook again. Clips and marks are safe.`
      : say`The ffmpeg found is too old (${systemVersion}). Install ffmpeg 5 or newer and start Baybook again.`,
    { detail: { systemVersion } },
  );
}

/** Builds from the source tree count their changes; about how many there were when a release was made. */
const CHANGES_AT = { '5.0': 105_000, '5.1': 107_300, '6.1': 112_700 } as const;

/**
 * Whether an ffmpeg is of release `major.minor` or newer, from the version it names: "5.1.9-0+deb12u1", "n7.1", or
 * "N-47683-g0e8eb07980" for a build from the source tree. Other words (a date) count as new: who builds it keeps it so.
 */
export function isAtLeast(version: string, release: keyof typeof CHANGES_AT): boolean {
  const changes = /^N-(\d+)/.exec(version)?.[1];
  if (changes !== undefined) return Number(changes) >= CHANGES_AT[release];
  const named = /^n?(\d{1,3})\.(\d{1,3})/.exec(version);
  if (named === null) return true;
  const [major, minor] = [Number(named[1]), Number(named[2])];
  const [leastMajor, leastMinor] = [Number(release[0]), Number(release.slice(2))];
  return major > leastMajor || (major === leastMajor && minor >= leastMinor);
}

/** The version a program names, or null when it does not run or is no ffmpeg. */
async function askVersion(path: string): Promise<string | null> {
  return new Promise((answer) => {
    execFile(path, ['-version'], { timeout: ANSWER_LIMIT_MS, killSignal: 'SIGKILL' }, (error, stdout) => {
      answer(error === null ? (/^ffmpeg version (\S+)/.exec(stdout)?.[1] ?? null) : null);
    });
  });
}

/** Both packages are optional dependencies, which npm may have dropped; they export a path, or an object with one. */
function packagedPath(name: string): string | null {
  try {
    const exported: unknown = createRequire(import.meta.url)(name);
    if (typeof exported === 'string') return exported;
    if (typeof exported === 'object' && exported !== null && 'path' in exported && typeof exported.path === 'string')
      return exported.path;
    return null;
  } catch {
    return null;
  }
}
