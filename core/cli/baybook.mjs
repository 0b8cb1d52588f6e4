#!/usr/bin/env node
/**
 * The command `baybook`. Plain JavaScript, because the Node that starts it may be too old to run TypeScript directly:
 * then the Node among the project's packages takes over.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import module from 'node:module';
import { constants } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));

/**
 * Node runs TypeScript directly from 22.18 on, in the 23 line from 23.6 on.
 * @param {string} version
 */
function isRecent(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > 23 || (major === 23 && minor >= 6) || (major === 22 && minor >= 18);
}

if (isRecent(process.versions.node)) {
  // What Node makes of the program's text is kept, which is most of a start.
  const { userCacheFolder } = await import('../files/user-cache.ts');
  const cache = userCacheFolder(process.env);
  if (cache !== null) module.enableCompileCache(join(cache, 'code'));
  await import('./main.ts');
} else {
  const name = process.platform === 'win32' ? 'node.exe' : 'node';
  const newer = join(here, '..', '..', 'node_modules', 'node', 'bin', name);
  if (existsSync(newer)) {
    const child = spawn(newer, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], {
      // The line tells it when this process is gone, however it ended.
      stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
    });
    // A terminal sends Ctrl+C to both; handing it on as well would make it two, and the second one kills at once.
    const fromTerminal = process.stdin.isTTY || process.stdout.isTTY || process.stderr.isTTY;
    process.on('SIGINT', () => fromTerminal || child.kill('SIGINT'));
    for (const signal of ['SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
    child.once('error', (error) => {
      console.error(`Node among the packages does not run (${error.message}); run npm ci in the project folder.`);
      process.exitCode = 2;
    });
    child.once('exit', (code, signal) => {
      process.exitCode = code ?? 128 + (signal === null ? 0 : constants.signals[signal]);
    });
  } else {
    console.error(
      `Baybook needs Node 22.18 or newer and this is ${process.versions.node}; run npm ci in the project folder, which brings one along.`,
    );
    process.exitCode = 2;
  }
}
