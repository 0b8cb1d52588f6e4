import { resolve } from 'node:path';
import fluent from 'fluent-ffmpeg';
import { say } from '../../model/say.ts';
import { reportedWritingTrouble } from '../../files/file-trouble.ts';
import { AppError } from '../../model/errors.ts';
import { endWithUs } from '../../files/end-with-us.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';

/** One file out of one or more; no pictures are decoded or encoded. */
export interface FileJob {
  readonly ffmpeg: Ffmpeg;
  readonly input: string;
  /** What stands before the input; an element must not hold exactly one space, which the package would split. */
  readonly inputOptions: readonly string[];
  /** Further inputs, in their order, with what stands before each. */
  readonly besides?: readonly { readonly path: string; readonly options: readonly string[] }[];
  /** Overwritten when it is there, so a name of its own; the caller renames it when all went well, else deletes it. */
  readonly output: string;
  /** What the coach knows the output as, in sentences. */
  readonly named: string;
  readonly outputOptions: readonly string[];
  readonly signal?: AbortSignal | undefined;
  /** Packets of pictures written so far. */
  readonly onProgress?: ((frames: number) => void) | undefined;
}

/** Why ffmpeg did not do it. */
export interface FileJobFailure {
  readonly cause: unknown;
  readonly stderrTail: string;
}

const STDERR_TAIL = 8192;

const running = new Set<() => void>();
/** A process that outlived us would go on filling the coach's disk. */
process.on('exit', () => {
  for (const stop of running) stop();
});

/** How many of these processes are running, for tests that nothing is left behind. */
export function fileJobCount(): number {
  return running.size;
}

/**
 * Runs a plain file job to its end; null when it went well. Such jobs are left to fluent-ffmpeg, and this is the only
 * file that knows that package (archived in 2025, MIT).
 *
 * Throws AppError `cancelled`, `disk-full` or `not-writable`.
 */
export async function runFileJob(job: FileJob): Promise<FileJobFailure | null> {
  const { signal } = job;
  const stopIfCancelled = (): void => {
    if (signal?.aborted === true) throw new AppError('cancelled', say`Cancelled.`, { cause: signal.reason });
  };
  stopIfCancelled();
  const command = fluent({ logger: undefined })
    .setFfmpegPath(job.ffmpeg.path)
    .input(`file:${resolve(job.input)}`)
    .inputOptions([...job.inputOptions]);
  for (const { path, options } of job.besides ?? []) command.input(`file:${resolve(path)}`).inputOptions([...options]);
  command.outputOptions(['-nostdin', '-y', ...job.outputOptions]).output(`file:${resolve(job.output)}`);
  const kill = (): void => {
    command.kill('SIGKILL');
  };
  running.add(kill);
  let forget = (): void => undefined;
  signal?.addEventListener('abort', kill, { once: true });
  try {
    const failure = await new Promise<FileJobFailure | null>((done) => {
      // The package first asks what ffmpeg can do; whoever cancels meanwhile finds no process to kill yet.
      command.on('start', () => {
        forget = endWithUs(pidOf(command));
        if (signal?.aborted === true) kill();
      });
      // Not the package's own progress event, which runs ffprobe.
      command.on('stderr', (line: string) => {
        const frames = /^frame= *(\d+) /.exec(line)?.[1];
        if (frames !== undefined) job.onProgress?.(Number(frames));
      });
      command.on('end', () => done(null));
      command.on('error', (cause: Error, _stdout: string | null, stderr: string | null) =>
        done({ cause, stderrTail: (stderr ?? '').slice(-STDERR_TAIL) }),
      );
      command.run();
    });
    stopIfCancelled();
    const trouble = reportedWritingTrouble(failure?.stderrTail ?? '', job.named);
    if (trouble !== null) throw trouble;
    return failure;
  } finally {
    signal?.removeEventListener('abort', kill);
    running.delete(kill);
    forget();
  }
}

/** The package keeps its process where its types do not name it. */
function pidOf(command: object): number | undefined {
  const child: unknown = 'ffmpegProc' in command ? command.ffmpegProc : undefined;
  if (typeof child !== 'object' || child === null || !('pid' in child)) return undefined;
  return typeof child.pid === 'number' ? child.pid : undefined;
}
