import { spawn } from 'node:child_process';

export interface Killed {
  /** Whole lines the program had printed before it died. */
  readonly lines: readonly string[];
  readonly signal: NodeJS.Signals | null;
  readonly stderr: string;
}

/**
 * Runs a program, kills it with SIGKILL `afterMs` milliseconds after its first line (or, with `from` start, after its
 * start), and tells what it had printed.
 */
export function killAtRandom(
  script: string,
  args: readonly string[],
  afterMs: number,
  from: 'start' | 'first line' = 'first line',
): Promise<Killed> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    let stderr = '';
    const killLater = () => setTimeout(() => child.kill('SIGKILL'), afterMs);
    child.stdout.setEncoding('utf8');
    if (from === 'start') killLater();
    else child.stdout.once('data', killLater);
    child.stdout.on('data', (text: string) => {
      output += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.once('error', reject);
    child.once('close', (_, signal) => {
      resolve({ lines: output.split('\n').slice(0, -1), signal, stderr });
    });
  });
}
