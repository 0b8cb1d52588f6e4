import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { runCommand } from './run-command.ts';

/** What the built program is made from. Files of the command line and of tests are not in it. */
const SOURCES = ['electron', 'renderer', 'core', 'resources', 'electron.vite.config.ts', 'package-lock.json'];
const OUTPUTS = [
  'out/main/main.js',
  'out/main/still-worker.js',
  'out/main/look-process.js',
  'out/preload/preload.cjs',
  'out/renderer/index.html',
];

const BUILD_LIMIT = 5 * 60_000;

/** Builds the program into out/ when a source is newer than what was built. Throws AppError `internal` on failure. */
export async function buildProgram(projectFolder: string, say: (line: string) => void): Promise<void> {
  if (isFresh(projectFolder)) return;
  say('Building Baybook ...');
  const builder = join(projectFolder, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js');
  const options = { folder: projectFolder, timeLimit: BUILD_LIMIT };
  const end = await runCommand(process.execPath, [builder, 'build', '--logLevel', 'warn'], options);
  if (end.exitCode === 0) return;
  say(end.errorTail);
  const why = end.timedOut ? 'it took too long' : 'the lines above say why';
  throw new AppError('internal', `Baybook could not be built; ${why}.`, { detail: { exitCode: end.exitCode } });
}

/** Whether every output is there and no older than the newest source. */
export function isFresh(projectFolder: string): boolean {
  const built = OUTPUTS.map((path) => getChangeTime(join(projectFolder, path)));
  const newest = Math.max(...SOURCES.map((path) => findNewest(join(projectFolder, path))));
  return built.every((time) => time !== null && time >= newest);
}

/** Milliseconds since 1970 of the latest change in a file or in all of a folder; 0 when there is none. */
function findNewest(path: string): number {
  const time = getChangeTime(path);
  if (time === null) return 0;
  if (!statSync(path).isDirectory()) return time;
  // A folder's own time tells of files taken away.
  return Math.max(time, ...readdirSync(path).map((name) => findNewest(join(path, name))));
}

function getChangeTime(path: string): number | null {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
}
