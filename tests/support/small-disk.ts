import { execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

/**
 * Runs a program on a real disk that is really small: 2 MB of memory, mounted at `disk` where only the child sees it, so
 * that nothing stays mounted whatever happens. An ordinary user gets the right to mount from a user namespace of the
 * child's own. The program is given the disk and then `args`; returns what it printed.
 */
export function onSmallDisk(script: string, disk: string, args: readonly string[]): string {
  mkdirSync(disk);
  const namespaces = process.getuid?.() === 0 ? ['--mount'] : ['--user', '--map-root-user', '--mount'];
  const mountAndRun = 'mount -t tmpfs -o size=2m small "$1" && shift && exec "$@"';
  const command = [process.execPath, script, disk, ...args];
  return execFileSync('unshare', [...namespaces, 'sh', '-c', mountAndRun, 'sh', disk, ...command], {
    encoding: 'utf8',
  });
}
