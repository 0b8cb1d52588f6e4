import { spawn } from 'node:child_process';
import { join } from 'node:path';

export interface CommandOutcome {
  readonly code: number | null;
  readonly out: string;
  readonly said: string;
}

const ENTRY = join(import.meta.dirname, '..', '..', 'core', 'cli', 'baybook.mjs');

/**
 * Runs the command as a coach would, in a process of its own. `stopAfter`: SIGINT when standard error matches. `environment`:
 * variables besides those of the test.
 */
export function runBaybook(
  argv: readonly string[],
  stopAfter?: RegExp,
  environment: Readonly<Record<string, string>> = {},
): Promise<CommandOutcome> {
  const env = { ...process.env, ...environment };
  const child = spawn(process.execPath, [ENTRY, ...argv], { stdio: ['ignore', 'pipe', 'pipe'], env });
  let out = '';
  let said = '';
  let stopped = false;
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    said += text;
    // Once: as in any terminal, a second Ctrl+C ends the command at once.
    if (!stopped && stopAfter?.test(said) === true) stopped = child.kill('SIGINT');
  });
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => resolve({ code, out, said }));
  });
}
