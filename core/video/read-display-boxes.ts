import { open } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { joinMatrices, orientationOf } from '../time/display-matrix.ts';
import type { DisplayMatrix, Orientation } from '../time/display-matrix.ts';

/** A moov box of a clip of hours has some megabytes. */
const LARGEST_MOOV = 256 * 1024 * 1024;
const IDENTITY: DisplayMatrix = { a: 1, b: 0, c: 0, d: 1 };

/**
 * How the pictures of each track of an MP4 or MOV file are brought upright, by track id: the movie's matrix after the
 * track's (ISO/IEC 14496-12, 8.2.2 mvhd and 8.3.2 tkhd). ffmpeg's report prints the turn but not whether a picture is
 * mirrored, hence this reader. Tracks it cannot read are left out; a file without a moov box gives an empty map.
 */
export async function readDisplayBoxes(path: string): Promise<ReadonlyMap<number, Orientation>> {
  const file = await open(path, 'r');
  try {
    const moov = await readMoov(file);
    return moov === null ? new Map() : trackOrientations(moov);
  } finally {
    await file.close();
  }
}

/** The same from the content of a moov box. */
export function trackOrientations(moov: DataView): ReadonlyMap<number, Orientation> {
  const movie = firstBox(moov, 'mvhd');
  const movieMatrix = movie === null ? IDENTITY : headerMatrix(movie, movieMatrixOffset(movie));
  const tracks = new Map<number, Orientation>();
  for (const trak of boxes(moov)) {
    const header = trak.type === 'trak' ? firstBox(trak.content, 'tkhd') : null;
    if (header === null || header.byteLength < 84) continue;
    const long = header.getUint8(0) === 1;
    const id = header.getUint32(long ? 20 : 12);
    const matrix = headerMatrix(header, long ? 52 : 40);
    tracks.set(id, orientationOf(joinMatrices(matrix, movieMatrix)));
  }
  return tracks;
}

const movieMatrixOffset = (mvhd: DataView): number => (mvhd.byteLength > 0 && mvhd.getUint8(0) === 1 ? 48 : 36);

/** 16.16 fixed point; the columns u and v of a 3 x 3 matrix stand between. */
function headerMatrix(box: DataView, offset: number): DisplayMatrix {
  if (box.byteLength < offset + 20) return IDENTITY;
  const at = (place: number): number => box.getInt32(offset + place * 4) / 65536;
  return { a: at(0), b: at(1), c: at(3), d: at(4) };
}

interface Box {
  readonly type: string;
  readonly content: DataView;
}

function firstBox(parent: DataView, type: string): DataView | null {
  for (const box of boxes(parent)) if (box.type === type) return box.content;
  return null;
}

/** The boxes that lie whole within `parent`. */
function* boxes(parent: DataView): Generator<Box> {
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

/** Walks the boxes of the file, reading only their headers, until the moov box. */
async function readMoov(file: FileHandle): Promise<DataView | null> {
  const { size: fileSize } = await file.stat();
  let offset = 0;
  while (offset + 8 <= fileSize) {
    const head = await readBytes(file, offset, Math.min(16, fileSize - offset));
    const header = boxHeader(head, 0, fileSize - offset);
    if (header === null) return null;
    if (header.type === 'moov') {
      const length = Math.min(header.size, fileSize - offset) - header.headerSize;
      return length > LARGEST_MOOV ? null : await readBytes(file, offset + header.headerSize, length);
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
