/**
 * Edit lists written by hand into an MP4 or MOV file whose moov box comes last (ISO/IEC 14496-12, 8.6.5 edts, 8.6.6 elst).
 * So tests know what a file says without asking any reader.
 */

/** `seconds` of the movie; `media` = first second of the track that it shows, null = nothing is shown. */
export interface Edit {
  readonly seconds: number;
  readonly media: number | null;
  /** 0 = the picture stands still. */
  readonly rate?: 0 | 1;
}

export interface Edits {
  readonly pictures?: readonly Edit[] | null;
  readonly sound?: readonly Edit[] | null;
  /** Times of 64 bits. */
  readonly long?: boolean;
}

/** The file with other edit lists; null takes a track's list away, undefined leaves it. */
export function withEdits(file: Buffer, edits: Edits): Buffer {
  const boxes = split(file);
  const movie = boxes.at(-1);
  if (movie?.type !== 'moov') throw new Error('the moov box must come last');
  const inside = split(movie.content);
  const movieScale = scaleOf(inside.find(({ type }) => type === 'mvhd')?.content);
  const parts = inside.map(({ type, content }) =>
    type === 'trak' ? box(type, withTrackEdits(content, edits, movieScale)) : box(type, content),
  );
  return Buffer.concat([...boxes.slice(0, -1).map(({ whole }) => whole), box('moov', Buffer.concat(parts))]);
}

/** The file without its list of key pictures before the one with this number among all pictures (from 1). */
export function withFirstKey(file: Buffer, sample: number): Buffer {
  const changed = Buffer.from(file);
  const at = changed.indexOf('stss');
  const count = changed.readUInt32BE(at + 8);
  for (let key = 0; key < count; key += 1) {
    const place = at + 12 + key * 4;
    if (changed.readUInt32BE(place) < sample) changed.writeUInt32BE(sample, place);
  }
  return changed;
}

function withTrackEdits(trak: Buffer, { pictures, sound, long }: Edits, movieScale: number): Buffer {
  const boxes = split(trak);
  const media = split(boxes.find(({ type }) => type === 'mdia')?.content ?? Buffer.alloc(0));
  const kind = media.find(({ type }) => type === 'hdlr')?.content.toString('latin1', 8, 12);
  const wanted = kind === 'vide' ? pictures : kind === 'soun' ? sound : undefined;
  if (wanted === undefined) return trak;
  const scale = scaleOf(media.find(({ type }) => type === 'mdhd')?.content);
  const list = wanted === null ? [] : [box('edts', box('elst', lines(wanted, movieScale, scale, long === true)))];
  const rest = boxes.filter(({ type }) => type !== 'edts').map(({ whole }) => whole);
  return Buffer.concat([...rest.slice(0, 1), ...list, ...rest.slice(1)]);
}

function lines(edits: readonly Edit[], movieScale: number, scale: number, long: boolean): Buffer {
  const head = Buffer.from([long ? 1 : 0, 0, 0, 0, 0, 0, 0, edits.length]);
  const each = edits.map(({ seconds, media, rate = 1 }) => {
    const line = Buffer.alloc(long ? 20 : 12);
    const [length, from] = [Math.round(seconds * movieScale), media === null ? -1 : Math.round(media * scale)];
    if (long) {
      line.writeBigUInt64BE(BigInt(length), 0);
      line.writeBigInt64BE(BigInt(from), 8);
    } else {
      line.writeUInt32BE(length, 0);
      line.writeInt32BE(from, 4);
    }
    line.writeInt16BE(rate, line.length - 4);
    return line;
  });
  return Buffer.concat([head, ...each]);
}

/** Ticks a second, of an mvhd or mdhd of version 0. */
function scaleOf(header: Buffer | undefined): number {
  if (header === undefined || header[0] !== 0) throw new Error('a header of version 0 is wanted');
  return header.readUInt32BE(12);
}

function box(type: string, content: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(content.length + 8, 0);
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, content]);
}

function split(bytes: Buffer): { readonly type: string; readonly content: Buffer; readonly whole: Buffer }[] {
  const found: { type: string; content: Buffer; whole: Buffer }[] = [];
  for (let at = 0; at + 8 <= bytes.length;) {
    const size = bytes.readUInt32BE(at);
    if (size < 8) throw new Error('only boxes of 32 bits are split');
    const whole = bytes.subarray(at, at + size);
    found.push({ type: whole.toString('latin1', 4, 8), content: whole.subarray(8), whole });
    at += size;
  }
  return found;
}
