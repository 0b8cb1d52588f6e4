import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { findFfmpeg, isAtLeast } from '../../../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../../../core/video/process/find-ffmpeg.ts';
import {
  endedWell,
  processError,
  runFfmpeg,
  runningCount,
  startFfmpeg,
} from '../../../../core/video/process/run-ffmpeg.ts';
import { expectRefused } from '../../../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const ENDLESS = ['-v', 'error', '-re', '-f', 'lavfi', '-i', 'color=s=16x16', '-f', 'rawvideo', '-'];

it('tells a good end', async () => {
  const { output, end } = await runFfmpeg(ffmpeg, [
    '-v',
    'error',
    '-f',
    'lavfi',
    '-i',
    'color=s=16x16:d=0.04',
    '-pix_fmt',
    'gray',
    '-f',
    'rawvideo',
    '-',
  ]);
  expect(output.length).toBe(256);
  expect(endedWell(end)).toBe(true);
  expect(end).toMatchObject({ exitCode: 0, signal: null, timedOut: false, cancelled: false, stopped: false });
});

it('tells a bad end, with the last words of stderr', async () => {
  const { end } = await runFfmpeg(ffmpeg, ['-v', 'error', '-i', 'file:/nowhere/at/all.mp4', '-f', 'null', '-']);
  expect(end).toMatchObject({ exitCode: 1, signal: null, timedOut: false, cancelled: false });
  expect(end.stderrTail).toContain('No such file');
  expect(processError(end, 'The clip could not be read.')).toMatchObject({
    code: 'ffmpeg-failed',
    message: 'The clip could not be read.',
  });
});

it('hands on every line of its report, more than it keeps', async () => {
  const source = 'testsrc=s=16x16:r=500:d=4';
  const lines: string[] = [];
  const args = ['-debug_ts', '-f', 'lavfi', '-i', source, '-f', 'null', '-'];
  const { end } = await runFfmpeg(ffmpeg, args, { onReport: (line) => lines.push(line) });
  expect(endedWell(end)).toBe(true);
  const decoded = lines.flatMap((line) => /^decoder -> .*?pts:(\d+)/.exec(line)?.[1] ?? []);
  expect(decoded).toEqual(Array.from({ length: 2000 }, (_, at) => String(at)));
  expect(lines.join('\n').length).toBeGreaterThan(end.stderrTail.length);
});

it('ends a process that takes too long', async () => {
  const { end } = await runFfmpeg(ffmpeg, ENDLESS, { timeLimitMs: 200 });
  expect(end).toMatchObject({ timedOut: true, cancelled: false, signal: 'SIGKILL' });
  expect(processError(end, '').code).toBe('timed-out');
  expect(runningCount()).toBe(0);
});

it('ends a process that is cancelled, before or after it began', async () => {
  const late = new AbortController();
  setTimeout(() => {
    late.abort();
  }, 100);
  for (const signal of [AbortSignal.abort(), late.signal]) {
    const { end } = await runFfmpeg(ffmpeg, ENDLESS, { signal });
    expect(end).toMatchObject({ cancelled: true, timedOut: false });
    expect(processError(end, '').code).toBe('cancelled');
  }
  expect(runningCount()).toBe(0);
});

it.each(['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGKILL'] as const)(
  'is ended with the program that started it, also when that ends by %s without a word',
  async (signal) => {
    const child = join(import.meta.dirname, 'children', 'endless-ffmpeg.ts');
    const program = spawn(process.execPath, [child], { stdio: ['ignore', 'pipe', 'inherit'] });
    await once(program.stdout, 'data');
    await expect.poll(() => childrenOf(program.pid, 'ffmpeg').length, { timeout: 10_000 }).toBe(1);
    const [pid = 0] = childrenOf(program.pid, 'ffmpeg');
    program.kill(signal);
    await once(program, 'exit');
    try {
      await expect.poll(() => stateOf(pid), { timeout: 10_000 }).toBeNull();
    } finally {
      if (stateOf(pid) !== null) process.kill(pid, 'SIGKILL');
    }
  },
  30_000,
);

/** Processes that `parent` started under that name, as the system lists them (proc(5)). */
function childrenOf(parent: number | undefined, name: string): number[] {
  return readdirSync('/proc')
    .filter((entry) => /^\d+$/.test(entry))
    .map(Number)
    .filter((pid) => {
      const facts = statusOf(pid);
      return facts?.includes(`PPid:\t${String(parent)}\n`) === true && facts.startsWith(`Name:\t${name}`);
    });
}

/** What a process is doing, or null when it is gone; a zombie is gone too. */
function stateOf(pid: number): string | null {
  const state = /^State:\t(\w)/m.exec(statusOf(pid) ?? '')?.[1] ?? 'Z';
  return state === 'Z' ? null : state;
}

function statusOf(pid: number): string | null {
  try {
    return readFileSync(`/proc/${String(pid)}/status`, 'utf8');
  } catch {
    return null;
  }
}

it('ends a process whose reader has had enough, also twice', async () => {
  const run = startFfmpeg(ffmpeg, ENDLESS);
  expect(runningCount()).toBe(1);
  run.stop();
  run.stop();
  expect(await run.end).toMatchObject({ stopped: true, cancelled: false });
  expect(runningCount()).toBe(0);
});

it('ends a process whose source of input fails, and hands on the cause', async () => {
  const cause = new Error('no more pictures');
  async function* input(): AsyncGenerator<Uint8Array> {
    yield new Uint8Array(256);
    await Promise.resolve();
    throw cause;
  }
  const args = ['-v', 'error', '-f', 'rawvideo', '-pix_fmt', 'gray', '-s', '16x16', '-i', 'pipe:0', '-f', 'null', '-'];
  const { end } = await runFfmpeg(ffmpeg, args, { input: input() });
  expect(end.inputError).toBe(cause);
  expect(endedWell(end)).toBe(false);
});

it('closes the source of input of a process that ends early', async () => {
  let closed = false;
  async function* endless(): AsyncGenerator<Uint8Array> {
    try {
      for (;;) {
        await Promise.resolve();
        yield new Uint8Array(256);
      }
    } finally {
      closed = true;
    }
  }
  const args = [
    '-v',
    'error',
    '-f',
    'rawvideo',
    '-pix_fmt',
    'gray',
    '-s',
    '16x16',
    '-i',
    'pipe:0',
    '-frames:v',
    '1',
    '-f',
    'null',
    '-',
  ];
  const { end } = await runFfmpeg(ffmpeg, args, { input: endless() });
  expect(end).toMatchObject({ exitCode: 0, inputError: null });
  await expect.poll(() => closed).toBe(true);
});

it('says so when the program cannot be started', async () => {
  const missing: Ffmpeg = { ...ffmpeg, path: '/nowhere/ffmpeg' };
  const { end } = await runFfmpeg(missing, []);
  expect(end).toMatchObject({ exitCode: null, signal: null });
  expect(processError(end, '').code).toBe('ffmpeg-missing');
});

it('lets go of the output of one that cannot be started, though nobody reads it', async () => {
  const run = startFfmpeg({ ...ffmpeg, path: '/nowhere/ffmpeg' }, []);
  await Promise.all([run.end, run.output.closed]);
});

it('keeps what it wrote for who begins to read after its end', async () => {
  const run = startFfmpeg(ffmpeg, ['-v', 'error', '-f', 'lavfi', '-i', 'color=s=16x16:d=0.04', '-f', 'rawvideo', '-']);
  expect(endedWell(await run.end)).toBe(true);
  let bytes = 0;
  for await (const chunk of run.output) bytes += chunk.length;
  expect(bytes).toBeGreaterThan(0);
});

it('that is cancelled ends at once, also while its reader is busy with a part of what it wrote', async () => {
  const cancel = new AbortController();
  const run = startFfmpeg(ffmpeg, ENDLESS, { signal: cancel.signal });
  const chunks = run.output[Symbol.asyncIterator]();
  await chunks.next();
  const start = performance.now();
  cancel.abort();
  expect(await run.end).toMatchObject({ cancelled: true });
  // It is given two seconds to be gone, and is left behind then.
  expect(performance.now() - start).toBeLessThan(1500);
  expect(await chunks.next()).toMatchObject({ done: true });
});

it('is found where it is set, and a wrong setting is never passed over', async () => {
  expect(await findFfmpeg({ setting: ffmpeg.path })).toMatchObject({ from: 'setting', version: ffmpeg.version });
  await expectRefused(findFfmpeg({ setting: '/nowhere/ffmpeg' }), 'ffmpeg-missing', /BAYBOOK_FFMPEG/);
  await expectRefused(findFfmpeg({ setting: process.execPath }), 'ffmpeg-missing');
});

it('is told old from new by the version it names', () => {
  const versions = [
    '4.4.2',
    '5.0.1',
    '5.1.9-0+deb12u1',
    'n7.1',
    '10.0',
    'N-47683-g0e8eb07980-static',
    'N-118000-g1',
    '2031-01-01',
  ];
  expect(versions.map((version) => isAtLeast(version, '5.0'))).toEqual([
    false,
    true,
    true,
    true,
    true,
    false,
    true,
    true,
  ]);
  expect(versions.map((version) => isAtLeast(version, '5.1'))).toEqual([
    false,
    false,
    true,
    true,
    true,
    false,
    true,
    true,
  ]);
  expect(versions.map((version) => isAtLeast(version, '6.1'))).toEqual([
    false,
    false,
    false,
    true,
    true,
    false,
    true,
    true,
  ]);
  const near = ['6.0.1', '6.1', '6.1.1-3ubuntu5', '6.2', '7.0'];
  expect(near.map((version) => isAtLeast(version, '6.1'))).toEqual([false, true, true, true, true]);
});
