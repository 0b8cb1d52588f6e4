import { execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

/**
 * Runs a script with a disk of 2 MB of memory, mounted at the empty folder `disk` (made if need be) where only the script
 * sees it, so that nothing stays mounted whatever happens: a real disk that is really full. An ordinary user gets the
 * right to mount from a user namespace of the child's own. The script finds `disk` and `args` behind its own name; what
 * it prints is returned.
 */
export function onSmallDisk(script: string, disk: string, ...args: readonly string[]): string {
  mkdirSync(disk, { recursive: true });
  const namespaces = process.getuid?.() === 0 ? ['--mount'] : ['--user', '--map-root-user', '--mount'];
  const mountAndRun = 'mount -t tmpfs -o size=2m small "$1" && shift && exec "$@"';
  const command = [process.execPath, script, disk, ...args];
  return execFileSync('unshare', [...namespaces, 'sh', '-c', mountAndRun, 'sh', disk, ...command], {
    encoding: 'utf8',
  });
}
