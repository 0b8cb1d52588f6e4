import { readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { describeFailure, runCommand } from '../../../electron/runtime/run-command.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

const node = process.execPath;

test('output, exit code and errors of a command are separate facts', async () => {
  const script = 'console.log("out"); console.error("trouble\\nlast line"); process.exit(3)';
  const end = await runCommand(node, ['-e', script], { timeLimit: 10_000 });
  expect(end).toMatchObject({ exitCode: 3, timedOut: false, output: 'out\n', errorTail: 'trouble\nlast line' });
  expect(describeFailure(end)).toMatch(/ended with 3: last line$/);
});

test('a command that is not there does not throw', async () => {
  const end = await runCommand('no-such-command-here', [], { timeLimit: 10_000 });
  expect(end).toMatchObject({ exitCode: null, timedOut: false });
  expect(describeFailure(end)).toMatch(/did not run: .*ENOENT/);
});

test('the time limit ends the command and what it started', async () => {
  const file = join(temporaryFolder(), 'pid');
  const end = await runCommand('bash', ['-c', `sleep 60 & echo $! > ${file}; wait`], { timeLimit: 500 });
  expect(end).toMatchObject({ exitCode: null, timedOut: true });
  expect(describeFailure(end)).toMatch(/took too long$/);
  // Being killed and being gone are a moment apart.
  for (let tries = 0; tries < 50 && isRunning(Number(readFileSync(file, 'utf8'))); tries++) await wait(20);
  expect(isRunning(Number(readFileSync(file, 'utf8')))).toBe(false);
});

/** Whether a process is there and not just waiting to be reaped. */
function isRunning(pid: number): boolean {
  try {
    return !/^State:\s*[ZX]/m.test(readFileSync(`/proc/${pid}/status`, 'utf8'));
  } catch {
    return false;
  }
}
