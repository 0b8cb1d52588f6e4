import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';

/**
 * The folder for what can be made anew, or null for none. `BAYBOOK_CACHE` names one, or is `off`; else it is Baybook's
 * folder where the system keeps such things: XDG_CACHE_HOME or ~/.cache, ~/Library/Caches, LOCALAPPDATA. Null as well
 * where the user has no home.
 */
export function userCacheFolder(
  environment: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform = process.platform,
): string | null {
  const set = environment['BAYBOOK_CACHE'] ?? '';
  if (set !== '') return set === 'off' ? null : resolve(set);
  const folder = systemFolder(environment, platform);
  return folder === null ? null : join(folder, 'baybook');
}

function systemFolder(
  environment: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform,
): string | null {
  // The XDG base directory specification: one that is not absolute counts as not set.
  const stated = platform === 'win32' ? environment['LOCALAPPDATA'] : environment['XDG_CACHE_HOME'];
  if (stated !== undefined && isAbsolute(stated)) return stated;
  const home = homeFolder();
  if (home === null) return null;
  if (platform === 'win32') return join(home, 'AppData', 'Local');
  return platform === 'darwin' ? join(home, 'Library', 'Caches') : join(home, '.cache');
}

/** Null for a user whom the system knows no home of, as in some containers. */
function homeFolder(): string | null {
  try {
    const home = homedir();
    return isAbsolute(home) ? home : null;
  } catch {
    return null;
  }
}
