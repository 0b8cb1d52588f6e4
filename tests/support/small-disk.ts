import { execFile, execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { promisify } from 'node:util';

/**
 * Runs a script with a disk of 2 MB of memory, mounted at the empty folder `disk` (made if need be) where only the script
 * sees it, so that nothing stays mounted whatever happens: a real disk that is really full. An ordinary user gets the
 * right to mount from a user namespace of the child's own. The script finds `disk` and `args` behind its own name; what
 * it prints is returned.
 */
export function onSmallDisk(script: string, disk: string, ...args: readonly string[]): string {
  return execFileSync('unshare', commandOn(disk, 2, script, args), { encoding: 'utf8' });
}

/** The same for a script that takes its time, on a disk of so many MB. What it says on standard error comes with a failure. */
export async function onSmallDiskMeanwhile(
  script: string,
  disk: string,
  megabytes: number,
  ...args: readonly string[]
): Promise<string> {
  const { stdout } = await promisify(execFile)('unshare', commandOn(disk, megabytes, script, args), {
    encoding: 'utf8',
  });
  return stdout;
}

function commandOn(disk: string, megabytes: number, script: string, args: readonly string[]): string[] {
  mkdirSync(disk, { recursive: true });
  const namespaces = process.getuid?.() === 0 ? ['--mount'] : ['--user', '--map-root-user', '--mount'];
  const mountAndRun = `mount -t tmpfs -o size=${String(megabytes)}m small "$1" && shift && exec "$@"`;
  const command = [process.execPath, script, disk, ...args];
  return [...namespaces, 'sh', '-c', mountAndRun, 'sh', disk, ...command];
}
