import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { constants, homedir } from 'node:os';
import { join } from 'node:path';
import { AppError } from '../core/model/errors.ts';
import { buildProgram } from './runtime/build-program.ts';
import { chooseElectronEnvironment, chooseElectronOptions, readMachine } from './runtime/launch-options.ts';
import { takeElectron } from './runtime/take-electron.ts';
import { takeFfmpeg } from './runtime/take-ffmpeg.ts';

/** `npm start`: gets what the program runs on, builds it when its sources are newer, and opens the window. */

const projectFolder = join(import.meta.dirname, '..');
const say = (line: string): void => console.log(line);

try {
  process.exitCode = hasScreen() ? await openWindow() : await showDemoWithoutScreen();
} catch (error) {
  if (!(error instanceof AppError)) throw error;
  console.error(error.message);
  process.exitCode = 2;
}

function hasScreen(): boolean {
  return process.platform !== 'linux' || Boolean(process.env['DISPLAY'] ?? process.env['WAYLAND_DISPLAY']);
}

async function openWindow(): Promise<number> {
  await takeFfmpeg(say);
  const electron = await takeElectron(projectFolder, say);
  await buildProgram(projectFolder, say);
  const options = chooseElectronOptions(readMachine());
  const environment = chooseElectronEnvironment(electron, process.env);
  return passThrough(electron.executable, [...options, projectFolder, ...process.argv.slice(2)], environment);
}

/** The whole main job on the demo, from the command line: address, top and impact as stills of an invented student. */
async function showDemoWithoutScreen(): Promise<number> {
  say('This machine has no screen, so Baybook makes the demo from the command line instead of opening its window.');
  await takeFfmpeg(say);
  const folder = findNewFolder(join(homedir(), 'baybook-demo'));
  const command = join(projectFolder, 'core', 'cli', 'baybook.mjs');
  // The command's last line names the folder with the stills.
  return passThrough(process.execPath, [command, 'demo', '--out', folder], process.env);
}

/** `wanted`, or with -2, -3 ... behind it when that is taken: what an earlier start made stays as it is. */
function findNewFolder(wanted: string): string {
  let folder = wanted;
  for (let count = 2; existsSync(folder); count++) folder = `${wanted}-${count}`;
  return folder;
}

/** Runs a program in the place of this one: same terminal, signals handed on, its exit code returned. */
function passThrough(command: string, args: readonly string[], environment: NodeJS.ProcessEnv): Promise<number> {
  const child = spawn(command, args, { stdio: 'inherit', env: environment });
  // A terminal sends Ctrl+C to both; handing it on as well would make it two, and a second one closes without saving.
  const fromTerminal = process.stdin.isTTY || process.stdout.isTTY || process.stderr.isTTY;
  process.on('SIGINT', () => fromTerminal || child.kill('SIGINT'));
  for (const signal of ['SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    // As a shell shows it: a program ended by signal n has the exit code 128 + n.
    child.once('exit', (code, signal) => resolve(code ?? 128 + (signal === null ? 0 : constants.signals[signal])));
  });
}
