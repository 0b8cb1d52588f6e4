import { spawn } from 'node:child_process';

/** How a started command ended: separate facts, so that the caller can say what matters. */
export interface CommandEnd {
  readonly command: string;
  /** Exit code, or null when a signal ended it or it could not be started. */
  readonly exitCode: number | null;
  readonly timedOut: boolean;
  readonly output: string;
  /** The last lines of its error stream, at most 8,000 characters; the cause when it could not be started. */
  readonly errorTail: string;
}

export interface CommandOptions {
  readonly folder?: string;
  /** Milliseconds until it is killed. */
  readonly timeLimit: number;
  readonly environment?: NodeJS.ProcessEnv;
  /** Show its output to the person at the terminal instead of keeping it. */
  readonly shown?: boolean;
}

const ERROR_TAIL = 8000;
const ENDING_SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Runs one command to its end. Resolves however it ends; never rejects. */
export function runCommand(command: string, args: readonly string[], options: CommandOptions): Promise<CommandEnd> {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: options.folder,
      env: options.environment ?? process.env,
      stdio: ['ignore', options.shown ? 'inherit' : 'pipe', options.shown ? 'inherit' : 'pipe'],
      // An own group, so that the time limit also ends what the command itself started.
      detached: process.platform !== 'win32',
    });
    let output = '';
    let errorTail = '';
    let timedOut = false;
    child.stdout?.setEncoding('utf8').on('data', (text: string) => (output += text));
    child.stderr?.setEncoding('utf8').on('data', (text: string) => (errorTail = (errorTail + text).slice(-ERROR_TAIL)));
    const stop = (): void => killGroup(child.pid);
    // The group hears no Ctrl+C of the terminal, so it is ended from here, and then this process in its usual way.
    const passOn = (signal: NodeJS.Signals): void => {
      stop();
      release();
      process.kill(process.pid, signal);
    };
    const release = (): void => {
      process.off('exit', stop);
      for (const signal of ENDING_SIGNALS) process.off(signal, passOn);
    };
    const timer = setTimeout(() => {
      timedOut = true;
      stop();
    }, options.timeLimit);
    process.once('exit', stop);
    for (const signal of ENDING_SIGNALS) process.once(signal, passOn);
    const finish = (exitCode: number | null): void => {
      clearTimeout(timer);
      release();
      resolve({ command: [command, ...args].join(' '), exitCode, timedOut, output, errorTail: errorTail.trim() });
    };
    child.once('error', (error) => {
      errorTail += error.message;
      finish(null);
    });
    child.once('close', (exitCode) => finish(exitCode));
  });
}

/** Kills a process and what it started. Nothing happens when it has already ended. */
function killGroup(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    process.kill(process.platform === 'win32' ? pid : -pid, 'SIGKILL');
  } catch {
    // It has ended meanwhile, which is what was wanted.
  }
}

/** One line for a person: what was run and how it failed. */
export function describeFailure(end: CommandEnd): string {
  const how = end.timedOut ? 'took too long' : end.exitCode === null ? 'did not run' : `ended with ${end.exitCode}`;
  const lastLine = end.errorTail.split('\n').findLast((line) => line.trim() !== '');
  return `${end.command.split(' ').slice(0, 3).join(' ')} ${how}${lastLine === undefined ? '' : `: ${lastLine.trim()}`}`;
}
