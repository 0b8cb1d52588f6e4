import { Readable } from 'node:stream';
import { expect, it } from 'vitest';
import { readFramePipe } from '../../../../core/video/decode/frame-pipe.ts';
import type { PipedFrame } from '../../../../core/video/decode/frame-pipe.ts';

/** Pictures whose bytes look like lines, so that only counting takes them apart. */
const PICTURES = [
  { pts: 40, data: '\n0, 1, 1, 1, 3, 0x0\n' },
  { pts: 80, data: '#' },
  { pts: 7, data: '' },
];
const STREAM = Buffer.from(
  '#software: x\n#tb 0: 1/600\n' +
    PICTURES.map(({ pts, data }) => `0, ${pts}, ${pts}, 20, ${data.length}, 0x0\n${data}`).join(''),
);

async function read(stream: Buffer, chunk: number): Promise<PipedFrame[]> {
  const chunks: Buffer[] = [];
  for (let at = 0; at < stream.length; at += chunk) chunks.push(stream.subarray(at, at + chunk));
  const frames: PipedFrame[] = [];
  for await (const frame of readFramePipe(Readable.from(chunks))) frames.push(frame);
  return frames;
}

it('gives every picture its time stamp, however the bytes arrive', async () => {
  for (const chunk of [1, 2, 3, 7, 50, 1000]) {
    const frames = await read(STREAM, chunk);
    expect(frames.map(({ pts, data }) => ({ pts, data: Buffer.from(data).toString() }))).toEqual(PICTURES);
  }
});

it('leaves out a picture that is cut short', async () => {
  const first = STREAM.indexOf('0x0') + '0x0\n'.length;
  expect(await read(STREAM.subarray(0, first + 5), 4)).toEqual([]);
  expect(await read(Buffer.alloc(0), 1)).toEqual([]);
});

it('refuses a stream that is something else', async () => {
  await expect(read(Buffer.from('hello\n'), 10)).rejects.toThrow('not a line of a frame pipe');
  await expect(read(Buffer.alloc(10_000, 'x'), 1000)).rejects.toThrow('without an end');
});
