import type { Ratio } from '../../model/frame.ts';
import { parseRatio } from '../../time/rational.ts';
import type { TimedPicture } from '../../time/shown-frames.ts';

/** One line of ffmpeg's framecrc output: a packet of one stream. */
export interface PacketLine {
  /** Ticks; null when the packet has no time. */
  readonly pts: number | null;
  /** Ticks, 0 when unknown. */
  readonly duration: number;
  /** Bytes. */
  readonly size: number;
  /** Decoding may start here. */
  readonly key: boolean;
  /** Only decoded, never shown (before or after an edit). */
  readonly discard: boolean;
  /** Cut short or broken. */
  readonly corrupt: boolean;
  /** Only the second field of the picture in an earlier packet, so no picture of its own; false where nobody looked. */
  readonly secondField: boolean;
}

/** What the lines before the first packet say. */
export interface StreamFacts {
  readonly timebase: Ratio | null;
  readonly width: number | null;
  readonly height: number | null;
  /** Null when unknown, which the format writes as 0/1. */
  readonly pixelAspect: Ratio | null;
}

/** Bits of libavcodec's AV_PKT_FLAG_*. */
const KEY = 0x1;
const CORRUPT = 0x2;
const DISCARD = 0x4;

/** Parses a packet line, or returns null for a comment and for anything else. */
export function parsePacketLine(line: string): PacketLine | null {
  const fields = line.split(',').map((field) => field.trim());
  const [stream, , pts, duration, size] = fields;
  if (stream === undefined || !/^\d+$/.test(stream)) return null;
  if (size === undefined || !/^\d+$/.test(size)) return null;
  // The flags are only printed when they are other than KEY alone.
  const printed = fields.find((field) => field.startsWith('F=0x'));
  const flags = printed === undefined ? KEY : Number.parseInt(printed.slice(4), 16);
  return {
    pts: wholeOrNull(pts),
    duration: Math.max(0, wholeOrNull(duration) ?? 0),
    size: Number(size),
    key: (flags & KEY) !== 0,
    discard: (flags & DISCARD) !== 0,
    corrupt: (flags & CORRUPT) !== 0,
    secondField: false,
  };
}

export interface PacketList extends StreamFacts {
  readonly packets: readonly PacketLine[];
}

/** Parses the whole output for one stream. */
export function parseFramecrc(text: string): PacketList {
  const packets: PacketLine[] = [];
  const header = new Map<string, string>();
  for (const line of text.split('\n')) {
    const comment = /^#(\w+) 0: (.*)$/.exec(line);
    if (comment?.[1] !== undefined && comment[2] !== undefined) header.set(comment[1], comment[2]);
    else {
      const packet = parsePacketLine(line);
      if (packet !== null) packets.push(packet);
    }
  }
  const size = /^(\d+)x(\d+)/.exec(header.get('dimensions') ?? '');
  const pixelAspect = parseRatio(header.get('sar') ?? '');
  return {
    packets,
    timebase: parseRatio(header.get('tb') ?? ''),
    width: size === null ? null : Number(size[1]),
    height: size === null ? null : Number(size[2]),
    pixelAspect: pixelAspect === null || pixelAspect.num <= 0 ? null : pixelAspect,
  };
}

/** ffmpeg writes a missing time as NOPTS or as the smallest 64-bit number. */
function wholeOrNull(text: string | undefined): number | null {
  if (text === undefined || !/^-?\d+$/.test(text)) return null;
  const value = Number(text);
  return Number.isSafeInteger(value) ? value : null;
}

/** The pictures in packets, in their order, as tables of frames are made from them. */
export function picturesOf(packets: readonly PacketLine[]): TimedPicture[] {
  return packets
    .filter(({ secondField }) => !secondField)
    .map(({ pts, duration, key, discard }) => ({ pts, duration, key, hidden: discard }));
}
