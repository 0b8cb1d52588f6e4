import { spawn } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import { endWithUs } from '../../files/end-with-us.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';
import { takeOutput } from './process-output.ts';
import type { ProcessOutput } from './process-output.ts';

/** How a process ended, as separate facts. */
export interface ProcessEnd {
  /** Null when a signal ended it or it never started. */
  readonly exitCode: number | null;
  readonly signal: string | null;
  readonly timedOut: boolean;
  readonly cancelled: boolean;
  /** We ended it because we had all we wanted. */
  readonly stopped: boolean;
  /** Why it never started, else null. */
  readonly startError: unknown;
  /** What the source of its input threw, else null. */
  readonly inputError: unknown;
  /** The last of what it wrote to stderr, at most 8 KB; all of it goes to `onReport`. */
  readonly stderrTail: string;
  readonly command: string;
}

export interface RunOptions {
  /** Bytes for its standard input. A chunk must not be changed after it was handed over. */
  readonly input?: AsyncIterable<Uint8Array>;
  readonly signal?: AbortSignal | undefined;
  /** Milliseconds until it is ended, > 0. */
  readonly timeLimitMs?: number;
  /** Working folder of the process; ours when not given. */
  readonly folder?: string | undefined;
  /** Gets every whole line of its stderr at once, in order, so that a long report need not be kept. */
  readonly onReport?: (line: string) => void;
  /** Which lines of its stderr count as complaints; all that it writes when not given. */
  readonly isComplaint?: (line: string) => boolean;
  /** Runs when nothing that a person waits for wants the machine. */
  readonly lowPriority?: boolean;
}

/** A running ffmpeg. Who starts one either awaits `end` or calls `stop`. */
export interface FfmpegProcess {
  /** What it writes to standard output; who does not want it drains it. */
  readonly output: ProcessOutput;
  /**
   * Never rejects. Resolves when the process is gone and who reads its output has read it all. Where it was killed that
   * takes two seconds at most: one that waits for a disk that does not answer cannot be ended, and is left behind.
   */
  readonly end: Promise<ProcessEnd>;
  /**
   * Whether it has complained by now: as `isComplaint` tells, else whether it has written to stderr, which at `-v error`
   * it only does about trouble.
   */
  complained(): boolean;
  /** Ends it at once; harmless when it has ended. */
  stop(): void;
}

const STDERR_TAIL = 8 * 1024;
/** Long enough for a slow machine to decode a clip of some minutes. */
const DEFAULT_TIME_LIMIT_MS = 10 * 60_000;

/** How long one that was killed may take to be gone, ms. On a disk that does not answer it never is, and is left behind. */
const GONE_LIMIT_MS = 2000;

const running = new Set<() => void>();
/** A process that outlived us would go on reading the coach's disk. */
process.on('exit', () => {
  for (const stop of running) stop();
});

/** How many processes of ours are running, for tests that nothing is left behind. */
export function runningCount(): number {
  return running.size;
}

/** Starts ffmpeg without a shell. `-nostdin` is added when it gets no input, so that it never reads our terminal. */
export function startFfmpeg(ffmpeg: Ffmpeg, args: readonly string[], options: RunOptions = {}): FfmpegProcess {
  const all = ['-hide_banner', '-nostats', ...(options.input === undefined ? ['-nostdin'] : []), ...args];
  const facts = {
    timedOut: false,
    cancelled: false,
    stopped: false,
    startError: null as unknown,
    inputError: null as unknown,
  };
  const child = spawn(ffmpeg.path, all, { stdio: ['pipe', 'pipe', 'pipe'], windowsHide: true, cwd: options.folder });
  const output = takeOutput(child.stdout);
  if (options.lowPriority === true && child.pid !== undefined) lowerPriority(child.pid);
  const forget = endWithUs(child.pid);
  let gone: NodeJS.Timeout | undefined;
  let leave = (): void => undefined;
  const kill = (): void => {
    child.kill('SIGKILL');
    if (running.has(kill)) gone ??= setTimeout(() => leave(), GONE_LIMIT_MS);
  };
  running.add(kill);

  // Nobody wants the rest of what it wrote, and who is in the middle of it need not go on first.
  const giveUp = (): void => {
    kill();
    output.destroy();
  };
  const cancel = (): void => {
    facts.cancelled = true;
    giveUp();
  };
  const timer = setTimeout(() => {
    facts.timedOut = true;
    giveUp();
  }, options.timeLimitMs ?? DEFAULT_TIME_LIMIT_MS);
  if (options.signal?.aborted === true) cancel();
  else options.signal?.addEventListener('abort', cancel, { once: true });

  let stderrTail = '';
  let unended = '';
  let complained = false;
  child.stderr.setEncoding('utf8');
  child.stderr.on('data', (text: string) => {
    stderrTail = (stderrTail + text).slice(-STDERR_TAIL);
    if (options.isComplaint === undefined) complained ||= text !== '';
    if (options.onReport === undefined && options.isComplaint === undefined) return;
    const lines = (unended + text).split('\n');
    // A line without end would be kept for ever; what is looked for stands at its beginning.
    unended = (lines.pop() ?? '').slice(0, STDERR_TAIL);
    for (const line of lines) {
      options.onReport?.(line);
      complained ||= options.isComplaint?.(line) === true;
    }
  });

  void feed(child.stdin, options.input, (cause) => {
    facts.inputError = cause;
    kill();
  });

  const end = new Promise<ProcessEnd>((resolve) => {
    const settle = (exitCode: number | null, signal: string | null): void => {
      clearTimeout(timer);
      clearTimeout(gone);
      options.signal?.removeEventListener('abort', cancel);
      running.delete(kill);
      child.stdin.destroy();
      const command = [ffmpeg.path, ...all].join(' ');
      resolve({ exitCode, signal, ...facts, stderrTail: stderrTail.trim(), command });
    };
    // What nobody has begun to read may still be read after its end.
    const closed = (exitCode: number | null, signal: string | null): void =>
      void (output.isRead ? output.closed : Promise.resolve()).then(() => settle(exitCode, signal));
    child.once('error', (cause) => {
      if (child.pid !== undefined) return;
      facts.startError = cause;
      output.destroy();
      settle(null, null);
    });
    child.once('close', closed);
    child.once('exit', forget);
    leave = () => {
      child.off('close', closed);
      output.destroy();
      child.stderr.destroy();
      child.unref();
      settle(null, 'SIGKILL');
    };
  });

  const stop = (): void => {
    facts.stopped = true;
    giveUp();
  };
  return { output, end, complained: () => complained, stop };
}

/**
 * Its threads are made later and take over the priority. The lowest: at half way, the many threads of an encoder took a
 * fifth of the machine from a picture that someone waited for. Where it may not be changed, the process runs as others do.
 */
function lowerPriority(pid: number): void {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW);
  } catch {
    // It may also have ended already.
  }
}

/** Runs ffmpeg to its end and keeps all that it wrote. */
export async function runFfmpeg(
  ffmpeg: Ffmpeg,
  args: readonly string[],
  options: RunOptions = {},
): Promise<{ readonly output: Buffer; readonly end: ProcessEnd }> {
  const run = startFfmpeg(ffmpeg, args, options);
  const chunks: Buffer[] = [];
  for await (const chunk of run.output) chunks.push(Buffer.from(chunk));
  const end = await run.end;
  return { output: Buffer.concat(chunks), end };
}

/**
 * Throws AppError `cancelled`, `timed-out` or `ffmpeg-missing` when ffmpeg was ended by us or never ran. What it says of a
 * clip, and its exit code, is for the caller to judge.
 */
export function requireSuccess(end: ProcessEnd): void {
  if (end.cancelled || end.timedOut || end.startError !== null) throw processError(end, '');
}

/** Whether it ended by itself and was content. */
export function endedWell(end: ProcessEnd): boolean {
  return end.exitCode === 0 && end.inputError === null && !end.timedOut && !end.cancelled;
}

/**
 * The error for a process that did not end well. `sentence` says what could not be done and what to do about it; it is
 * used unless the process was cancelled, took too long, or never started.
 */
export function processError(end: ProcessEnd, sentence: string): AppError {
  const detail = {
    command: end.command,
    exitCode: end.exitCode,
    signal: end.signal,
    timedOut: end.timedOut,
    cancelled: end.cancelled,
    stderrTail: end.stderrTail,
  };
  if (end.cancelled) return new AppError('cancelled', say`Cancelled.`, { detail });
  if (end.timedOut)
    return new AppError(
      'timed-out',
      say`Reading the clip took too long and was stopped. Try again, or keep a shorter part of it.`,
      {
        detail,
      },
    );
  if (end.startError !== null)
    return new AppError(
      'ffmpeg-missing',
      say`ffmpeg could not be started; check that it is installed and may be run.`,
      {
        detail,
        cause: end.startError,
      },
    );
  return new AppError('ffmpeg-failed', sentence, { detail, cause: end.inputError ?? undefined });
}

/** Writes the input with back pressure. That ffmpeg closes its end early (EPIPE) is its right and no failure of ours. */
async function feed(
  stdin: NodeJS.WritableStream,
  input: AsyncIterable<Uint8Array> | undefined,
  fail: (cause: unknown) => void,
): Promise<void> {
  if (input === undefined) {
    stdin.on('error', () => undefined);
    stdin.end();
    return;
  }
  const guarded = async function* (): AsyncGenerator<Uint8Array> {
    const source = input[Symbol.asyncIterator]();
    let whole = false;
    try {
      for (;;) {
        // Only what the source itself throws counts; a pipe that closes is thrown in at the yield below.
        const next = await source.next().catch((cause: unknown) => {
          whole = true;
          fail(cause);
          return { done: true, value: undefined } as const;
        });
        if (next.done === true) {
          whole = true;
          return;
        }
        yield next.value;
      }
    } finally {
      if (!whole) await source.return?.();
    }
  };
  await pipeline(Readable.from(guarded(), { objectMode: true, highWaterMark: 1 }), stdin).catch(() => undefined);
}
