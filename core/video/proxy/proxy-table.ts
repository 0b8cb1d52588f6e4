import { crc32 } from 'node:zlib';
import type { ClipIndex } from '../../time/clip-index.ts';
import { ratioText } from '../../time/rational.ts';
import { PROXY_RECIPE } from './proxy-encoder.ts';
import { proxySize } from './proxy-size.ts';
import type { ProxySide } from './proxy-size.ts';

/**
 * The list that stands beside the pictures of a proxy. A text, only ever appended to: one line of what the copy is,
 * one line a picture in the order of the pictures' bytes, perhaps one that says that the decoder complained, and at the
 * end one that says that nothing is missing. Each line ends with the CRC-32 of all lines up to it, so that a line that was
 * garbled or written in part ends the list there, and no picture ever goes under another one's time.
 */

/** One picture of a copy. */
export interface TableFrame {
  /** Ticks of the clip's time base. */
  readonly pts: number;
  /** Size, > 0. */
  readonly bytes: number;
  /** CRC-32 of the picture's bytes. */
  readonly crc: number;
}

/** The place where a list can be continued. */
export interface TableEnd {
  /** Bytes of the list that hold. */
  readonly length: number;
  /** CRC-32 of the text so far. */
  readonly check: number;
}

export interface ProxyTable extends TableEnd {
  /** In the order in which they were made; no two of one time. */
  readonly frames: readonly TableFrame[];
  /** Bytes of the pictures together. */
  readonly dataBytes: number;
  /** Whether the decoder complained, or the clip's table did not hold: it is gone on with from the clip's start alone. */
  readonly complained: boolean;
  /** Once nothing is missing: whether there was any error. Null before. */
  readonly complete: { readonly errors: boolean } | null;
}

const NAME = 'baybook-scrub-copy 2';
const COMPLAINED = 'complained';
const COMPLETE = 'complete';
const COMPLETE_WITH_ERRORS = 'complete with errors';

/** The first line: what the pictures were made from and how. A copy with another one is of no use. */
export function tableTitle(
  index: Pick<ClipIndex, 'width' | 'height' | 'turn' | 'mirrored' | 'timebase' | 'dynamicRange'>,
  longest: ProxySide,
): string {
  const { width, height } = proxySize(index, longest);
  const upright = `${index.turn}${index.mirrored ? ' mirrored' : ''}`;
  return `${NAME} ${PROXY_RECIPE} ${width}x${height} ${ratioText(index.timebase)} ${index.dynamicRange} ${upright}`;
}

export const EMPTY_TABLE: TableEnd = { length: 0, check: 0 };

/** The text to append after `end` for some lines, and where the list ends with them. */
export function tableText(end: TableEnd, lines: readonly string[]): { readonly text: string; readonly end: TableEnd } {
  let { check } = end;
  let text = '';
  for (const line of lines) {
    check = crc32(line, check);
    text += `${line} ${hex(check)}\n`;
  }
  return { text, end: { length: end.length + Buffer.byteLength(text), check } };
}

export function frameLine({ pts, bytes, crc }: TableFrame): string {
  return `${pts} ${bytes} ${hex(crc)}`;
}

export function complainedLine(): string {
  return COMPLAINED;
}

export function completeLine(errors: boolean): string {
  return errors ? COMPLETE_WITH_ERRORS : COMPLETE;
}

/**
 * Reads a list as far as it holds: lines that are whole, of pictures that lie within `dataBytes`, each of a
 * time of its own. Null when it is not the list of a copy with that title.
 */
export function parseTable(text: string, title: string, dataBytes: number): ProxyTable | null {
  const frames: TableFrame[] = [];
  const times = new Set<number>();
  let [complained, complete]: [boolean, ProxyTable['complete']] = [false, null];
  let [length, check, data] = [0, 0, 0];
  while (complete === null) {
    const end = text.indexOf('\n', length);
    if (end < 0) break;
    const line = text.slice(length, end - 9);
    const next = crc32(line, check);
    if (text.slice(end - 9, end) !== ` ${hex(next)}`) break;
    if (length === 0) {
      if (line !== title) return null;
    } else if (line === COMPLAINED) complained = true;
    else if (line === COMPLETE || line === COMPLETE_WITH_ERRORS) complete = { errors: line === COMPLETE_WITH_ERRORS };
    else {
      const frame = parseFrame(line);
      if (frame === null || data + frame.bytes > dataBytes) break;
      if (times.has(frame.pts)) break;
      times.add(frame.pts);
      frames.push(frame);
      data += frame.bytes;
    }
    [length, check] = [end + 1, next];
  }
  return length === 0 ? null : { frames, dataBytes: data, complained, complete, length, check };
}

function parseFrame(line: string): TableFrame | null {
  const parts = /^(-?\d{1,16}) ([1-9]\d{0,9}) ([0-9a-f]{8})$/.exec(line);
  if (parts === null) return null;
  const frame = { pts: Number(parts[1]), bytes: Number(parts[2]), crc: Number.parseInt(parts[3] ?? '', 16) };
  return Number.isSafeInteger(frame.pts) ? frame : null;
}

function hex(crc: number): string {
  return crc.toString(16).padStart(8, '0');
}
