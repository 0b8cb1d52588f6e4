import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { takeOutput } from '../../../../core/video/process/process-output.ts';
import type { ProcessOutput } from '../../../../core/video/process/process-output.ts';

/** A Node that runs these words. */
const start = (words: string) => spawn(process.execPath, ['-e', words], { stdio: ['ignore', 'pipe', 'inherit'] });

/** Ten megabytes in which every four bytes tell how many of them came before. */
const COUNTED = 2_500_000;
const WRITE_COUNTED = `const all = new Uint32Array(${String(COUNTED)}).map((_, at) => at);
  process.stdout.write(new Uint8Array(all.buffer));`;

async function* wrapped(output: ProcessOutput): AsyncGenerator<Uint8Array> {
  yield* output;
}

async function readAll(output: ProcessOutput, between?: () => Promise<unknown>): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of output) {
    const before = Buffer.from(chunk);
    await between?.();
    // It holds until the next one is asked for.
    expect(before.equals(chunk)).toBe(true);
    chunks.push(before);
  }
  return Buffer.concat(chunks);
}

describe('what a process writes', () => {
  it('comes whole, in order and in one memory, in large chunks', async () => {
    const memories = new Set<ArrayBufferLike>();
    const output = takeOutput(start(WRITE_COUNTED).stdout);
    const bytes: Buffer[] = [];
    for await (const chunk of output) {
      memories.add(chunk.buffer);
      bytes.push(Buffer.from(chunk));
    }
    const all = Buffer.concat(bytes);
    expect(all.length).toBe(4 * COUNTED);
    expect(Array.from({ length: 1000 }, (_, at) => all.readUInt32LE(10_000 * at))).toEqual(
      Array.from({ length: 1000 }, (_, at) => 2500 * at),
    );
    expect(memories.size).toBe(1);
    await output.closed;
  });

  it('waits for a slow reader, whose chunk stays as it is', async () => {
    const output = takeOutput(start(WRITE_COUNTED).stdout);
    let times = 0;
    const all = await readAll(output, async () => {
      times += 1;
      if (times % 10 === 0) await new Promise((resolve) => setTimeout(resolve, 5));
      else await new Promise(setImmediate);
    });
    expect(all.length).toBe(4 * COUNTED);
    expect(all.readUInt32LE(all.length - 4)).toBe(COUNTED - 1);
  });

  it('is not read before it is asked for: who writes stands still meanwhile, and none of it is lost', async () => {
    const child = start(WRITE_COUNTED);
    const output = takeOutput(child.stdout);
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(child.exitCode).toBe(null);
    expect((await readAll(output)).length).toBe(4 * COUNTED);
  });

  it('ends for who waits when it is destroyed, and the child’s own close comes', async () => {
    const child = start('setInterval(() => {}, 1000)');
    const closed = once(child, 'close');
    const output = takeOutput(child.stdout);
    const all = readAll(output);
    output.destroy();
    output.destroy();
    expect((await all).length).toBe(0);
    await output.closed;
    child.kill('SIGKILL');
    await closed;
  });

  it('is dropped when nobody wants it', async () => {
    const child = start(WRITE_COUNTED);
    const closed = once(child, 'close');
    const output = takeOutput(child.stdout);
    output.drain();
    await Promise.all([closed, output.closed]);
    expect(child.exitCode).toBe(0);
    await expect(readAll(output)).rejects.toThrow('one reader');
  });

  it.each([
    ['in its chunks', (output: ProcessOutput) => output],
    ['in what is made of them', wrapped],
  ])('is dropped from where its reader leaves it, so that it ends: %s', async (_, readIn) => {
    const child = start(WRITE_COUNTED);
    const closed = once(child, 'close');
    const output = takeOutput(child.stdout);
    for await (const chunk of readIn(output)) if (chunk.length > 0) break;
    await Promise.all([closed, output.closed]);
    expect(child.exitCode).toBe(0);
  });

  it('leaves the read bytes to who reads already', async () => {
    const child = start(WRITE_COUNTED);
    const output = takeOutput(child.stdout);
    const all = readAll(output);
    output.drain();
    expect((await all).length).toBe(4 * COUNTED);
  });

  it('has one reader', async () => {
    const output = takeOutput(start(WRITE_COUNTED).stdout);
    const all = readAll(output);
    await expect(readAll(output)).rejects.toThrow('one reader');
    expect((await all).length).toBe(4 * COUNTED);
  });

  it('comes from a stream without a native end as well', async () => {
    const streams = [new PassThrough(), new PassThrough(), new PassThrough()] as const;
    const [read, dropped, left] = [takeOutput(streams[0]), takeOutput(streams[1]), takeOutput(streams[2])];
    for (const stream of streams) {
      stream.write('words');
      stream.end(' and more');
    }
    expect((await readAll(read)).toString()).toBe('words and more');
    dropped.drain();
    for await (const chunk of left) if (chunk.length > 0) break;
    await Promise.all([read.closed, dropped.closed, left.closed]);
  });
});
