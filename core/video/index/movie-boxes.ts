import type { FileHandle } from 'node:fs/promises';

/** A moov box of a clip of hours has some tens of megabytes. */
const LARGEST_MOOV = 64 * 1024 * 1024;
/** Boxes before it, each of which takes a reading; more are a lie of the file. */
const MOST_BEFORE = 10_000;

/** A box of an MP4 or MOV file (ISO/IEC 14496-12, 4.2): what it is called and what it holds. */
export interface Box {
  readonly type: string;
  readonly content: DataView;
}

export function firstBox(parent: DataView, type: string): DataView | null {
  for (const box of boxes(parent)) if (box.type === type) return box.content;
  return null;
}

/** The box at the end of a path of boxes, e.g. mdia, mdhd; null where one is missing. */
export function boxAt(parent: DataView, ...path: readonly string[]): DataView | null {
  return path.reduce<DataView | null>((at, type) => (at === null ? null : firstBox(at, type)), parent);
}

/** The tracks of a movie (trak) whose header (tkhd) is whole, with the number that the file gives them. */
export function* tracks(
  moov: DataView,
): Generator<{ readonly id: number; readonly trak: DataView; readonly header: DataView }> {
  for (const { type, content: trak } of boxes(moov)) {
    const header = type === 'trak' ? firstBox(trak, 'tkhd') : null;
    if (header === null || header.byteLength < 84) continue;
    yield { id: header.getUint32(header.getUint8(0) === 1 ? 20 : 12), trak, header };
  }
}

/** The boxes that lie whole within `parent`, in the same bytes. */
export function* boxes(parent: DataView): Generator<Box> {
  let offset = 0;
  while (offset + 8 <= parent.byteLength) {
    const header = boxHeader(parent, offset, parent.byteLength - offset);
    if (header === null || offset + header.size > parent.byteLength) return;
    const { type, size, headerSize } = header;
    yield { type, content: new DataView(parent.buffer, parent.byteOffset + offset + headerSize, size - headerSize) };
    offset += size;
  }
}

/** `rest` = bytes from the box to the end of what holds it, which a size of 0 stands for. Null when impossible. */
function boxHeader(
  view: DataView,
  offset: number,
  rest: number,
): { readonly type: string; readonly size: number; readonly headerSize: number } | null {
  const type = String.fromCharCode(...new Uint8Array(view.buffer, view.byteOffset + offset + 4, 4));
  const short = view.getUint32(offset);
  if (short === 1 && offset + 16 > view.byteLength) return null;
  const headerSize = short === 1 ? 16 : 8;
  const size = short === 0 ? rest : short === 1 ? Number(view.getBigUint64(offset + 8)) : short;
  return size < headerSize ? null : { type, size, headerSize };
}

/** The content of the moov box and where in the file it begins; null without one. Reads only the headers of others. */
export async function readMovie(
  file: FileHandle,
): Promise<{ readonly content: DataView; readonly offset: number } | null> {
  const { size: fileSize } = await file.stat();
  let offset = 0;
  for (let place = 0; offset + 8 <= fileSize && place < MOST_BEFORE; place += 1) {
    const head = await readBytes(file, offset, Math.min(16, fileSize - offset));
    const header = boxHeader(head, 0, fileSize - offset);
    if (header === null) return null;
    if (header.type === 'moov') {
      const length = Math.min(header.size, fileSize - offset) - header.headerSize;
      if (length > LARGEST_MOOV) return null;
      const start = offset + header.headerSize;
      return { content: await readBytes(file, start, length), offset: start };
    }
    offset += header.size;
  }
  return null;
}

async function readBytes(file: FileHandle, offset: number, length: number): Promise<DataView> {
  const bytes = new Uint8Array(length);
  let done = 0;
  while (done < length) {
    const { bytesRead } = await file.read(bytes, done, length - done, offset + done);
    if (bytesRead === 0) break;
    done += bytesRead;
  }
  return new DataView(bytes.buffer, 0, done);
}
