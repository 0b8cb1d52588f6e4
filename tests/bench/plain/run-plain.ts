import { spawn } from 'node:child_process';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Ffmpeg } from '../../../core/video/process/find-ffmpeg.ts';

/** What a finished ffmpeg said. The bench runs it by itself, so that what it compares with is not what it measures. */
export interface PlainRun {
  readonly output: Buffer;
  readonly complaint: string;
  /** Milliseconds from the start of the process to its end. */
  readonly lasted: number;
  /** Milliseconds until `wanted` bytes were here; null when fewer came, or none were wanted. */
  readonly arrived: number | null;
}

interface PlainOptions {
  readonly input?: AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
  /** Bytes after which the time is taken. */
  readonly wanted?: number;
  /** What of stderr is kept, in characters. */
  readonly level?: 'error' | 'info';
}

/** Runs ffmpeg to its end; throws when it was not content. */
export async function runPlain(ffmpeg: Ffmpeg, args: readonly string[], options: PlainOptions = {}): Promise<PlainRun> {
  const { input, wanted = 0, level = 'error' } = options;
  const all = ['-hide_banner', '-nostats', '-v', level, '-y', ...(input === undefined ? ['-nostdin'] : []), ...args];
  const start = performance.now();
  const child = spawn(ffmpeg.path, all, { stdio: 'pipe' });
  const stop = (): boolean => child.kill('SIGKILL');
  process.once('exit', stop);
  const chunks: Buffer[] = [];
  let complaint = '';
  let bytes = 0;
  let arrived: number | null = null;
  child.stdout.on('data', (chunk: Buffer) => {
    chunks.push(chunk);
    bytes += chunk.length;
    if (wanted > 0 && arrived === null && bytes >= wanted) arrived = performance.now() - start;
  });
  child.stderr.setEncoding('utf8');
  child.stderr.on('data', (text: string) => (complaint += text));
  if (input === undefined) child.stdin.end();
  // That ffmpeg has enough and closes its end is no failure.
  else void pipeline(Readable.from(input), child.stdin).catch(() => undefined);
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  }).finally(() => process.off('exit', stop));
  const lasted = performance.now() - start;
  if (code !== 0) throw new Error(`ffmpeg ${all.join(' ')} ended with ${code}: ${complaint.slice(-2000)}`);
  return { output: Buffer.concat(chunks), complaint, lasted, arrived };
}
