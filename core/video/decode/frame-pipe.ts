import { parsePacketLine } from '../index/parse-framecrc.ts';
import { proxyEncoderArguments } from '../proxy/proxy-encoder.ts';
import type { PictureKind } from './picture-filter.ts';

/** A picture as it came out of ffmpeg. */
export interface PipedFrame {
  /** Time stamp, in ticks of the clip's time base. */
  readonly pts: number;
  /** An encoded picture, or raw pixels. Its own memory, not shared. */
  readonly data: Uint8Array;
}

/**
 * Output arguments that put each picture on standard output behind one line of text with its time stamp and its size
 * in bytes: a framecrc writer and a bare writer share the pipe, and each hands on what it has at once. So every picture
 * carries its identity, which a bare stream of pictures loses.
 */
export function framePipeArguments(muxer: 'image2pipe' | 'rawvideo' | 'h264'): string[] {
  return ['-f', 'tee', `[f=framecrc:flush_packets=1]pipe:1|[f=${muxer}:flush_packets=1]pipe:1`];
}

/** Lossless as any PNG. With row prediction the lowest level makes smaller files than the highest without, and sooner. */
const QUICK_PNG = ['-compression_level', '1', '-pred', 'mixed'] as const;

/** Encoder and output of pictures that somebody waits for, each handed on as soon as it is made. */
export function soonPipeArguments(kind: PictureKind): string[] {
  if (kind === 'proxy') return [...proxyEncoderArguments('soon'), ...framePipeArguments('h264')];
  if (kind === 'png') return ['-c:v', 'png', ...QUICK_PNG, ...framePipeArguments('image2pipe')];
  return ['-c:v', 'rawvideo', ...framePipeArguments('rawvideo')];
}

/** No line of the text part is longer; more means that the stream is not what we think. */
const LONGEST_LINE = 4096;
const NEWLINE = 10;

/** Reads the pictures of such a stream, whose chunks hold until the next is asked for. Throws when it is not one; ends quietly when it breaks off within a picture. */
export async function* readFramePipe(output: AsyncIterable<Uint8Array>): AsyncGenerator<PipedFrame> {
  const bytes = new ByteQueue(output);
  try {
    for (;;) {
      const line = await bytes.line();
      if (line === null) return;
      if (line.startsWith('#')) continue;
      const packet = parsePacketLine(line);
      if (packet === null) throw new Error(`not a line of a frame pipe: ${line.slice(0, 80)}`);
      const data = await bytes.take(packet.size);
      if (data === null) return;
      if (packet.pts !== null) yield { pts: packet.pts, data };
    }
  } finally {
    await bytes.leave();
  }
}

function latin1(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
}

/** The chunks of a stream, taken apart by lines and by counts of bytes. */
class ByteQueue {
  readonly #chunks: AsyncIterator<Uint8Array>;
  #rest: Uint8Array = new Uint8Array(0);

  constructor(stream: AsyncIterable<Uint8Array>) {
    this.#chunks = stream[Symbol.asyncIterator]();
  }

  /** The text up to the next newline, or null at the end. */
  async line(): Promise<string | null> {
    let text = '';
    for (;;) {
      const end = this.#rest.indexOf(NEWLINE);
      if (end >= 0) {
        text += latin1(this.#rest.subarray(0, end));
        this.#rest = this.#rest.subarray(end + 1);
        return text;
      }
      text += latin1(this.#rest);
      if (text.length > LONGEST_LINE) throw new Error('not a frame pipe: a line without an end');
      if (!(await this.#fill())) return null;
    }
  }

  /** Exactly `count` bytes, or null when the stream ends before. */
  async take(count: number): Promise<Uint8Array | null> {
    const taken = new Uint8Array(count);
    let done = 0;
    for (;;) {
      const part = this.#rest.subarray(0, count - done);
      taken.set(part, done);
      done += part.length;
      this.#rest = this.#rest.subarray(part.length);
      if (done === count) return taken;
      if (!(await this.#fill())) return null;
    }
  }

  /** Nothing more is taken. */
  async leave(): Promise<void> {
    await this.#chunks.return?.();
  }

  async #fill(): Promise<boolean> {
    const next = await this.#chunks.next();
    if (next.done === true) return false;
    this.#rest = next.value;
    return true;
  }
}
