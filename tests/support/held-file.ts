import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { temporaryFolder } from './temporary-folder.ts';

/** Takes a lease on a file (fcntl(2), F_SETLEASE with F_WRLCK): others who open it wait until it is given up. */
const HOLD = `$SIG{IO} = 'IGNORE'; open(F, '+<', $ARGV[0]) or die; fcntl(F, 1024, 1) or die; $| = 1; print 'held'; sleep 600;`;

/**
 * A copy of a file that anybody can see, and that nobody can open for as long as the test lasts: the system lets whoever
 * opens it wait (45 seconds as Linux is set), as a share does whose computer is gone. Linux only; `perl` is part of every
 * Debian.
 */
export async function heldFile(path: string, name: string): Promise<string> {
  const held = join(temporaryFolder(), name);
  copyFileSync(path, held);
  const holder = spawn('perl', ['-e', HOLD, held], { stdio: ['ignore', 'pipe', 'inherit'] });
  onTestFinished(() => void holder.kill('SIGKILL'));
  const [said] = await Promise.race([once(holder.stdout, 'data'), once(holder, 'exit')]);
  if (String(said) !== 'held') throw new Error(`the file is not held: ${String(said)}`);
  return held;
}

/** What stands in a folder under the name of a file and is none, by what it is called in sentences. */
export async function noFiles(): Promise<Readonly<Record<'folder' | 'pipe' | 'line' | 'device', string>>> {
  const folder = temporaryFolder();
  const pipe = join(folder, 'pipe.mp4');
  execFileSync('mkfifo', [pipe]);
  const line = join(folder, 'line.mp4');
  const server = createServer().listen(line);
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  writeFileSync(join(folder, 'note.txt'), 'a note');
  return { folder, pipe, line, device: '/dev/zero' };
}
