import { spawnSync } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const CALLS = 'read,readv,pread64,preadv,preadv2,copy_file_range,sendfile';

/**
 * Bytes of a file that are read while it is looked at and brought into a book, by all processes that are started for it; told
 * by the kernel (strace). Null where there is no strace.
 */
export async function bytesRead(path: string): Promise<number | null> {
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-read-'));
  try {
    const trace = join(folder, 'trace');
    const watch = ['-f', '-qq', '-y', '-s', '0', '-e', `trace=${CALLS}`, '-e', 'signal=none', '-o', trace];
    const work = [
      process.execPath,
      join(import.meta.dirname, 'children', 'import-once.ts'),
      path,
      join(folder, 'book'),
    ];
    const { status, error, stderr } = spawnSync('strace', [...watch, ...work], { encoding: 'utf8' });
    if (error !== undefined) return null;
    if (status !== 0) throw new Error(`the clip was not brought in: ${stderr.slice(-500)}`);
    return sumOf(await readFile(trace, 'utf8'), path);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** A call that another thread interrupts stands on two lines, the second without the name of the file. */
export function sumOf(trace: string, path: string): number {
  const waiting = new Set<string>();
  let sum = 0;
  for (const line of trace.split('\n')) {
    const thread = /^\d+/.exec(line)?.[0] ?? '';
    const isOfFile = line.includes(`<${path}>`) || (line.includes(' resumed>') && waiting.delete(thread));
    if (!isOfFile) continue;
    if (line.endsWith('<unfinished ...>')) waiting.add(thread);
    else sum += Math.max(0, Number(/ = (-?\d+)/.exec(line)?.[1] ?? 0));
  }
  return sum;
}
