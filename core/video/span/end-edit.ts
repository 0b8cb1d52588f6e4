import { open } from 'node:fs/promises';
import { boxes, firstBox, readMovie } from '../index/movie-boxes.ts';

/**
 * Lets the edit of the picture track of an MP4 or MOV file end `ticks` after it begins, so that what is coded for later
 * is decoded but not shown (ISO/IEC 14496-12, 8.6.6 elst). ffmpeg writes where an edit begins but not where it ends. For
 * files of ours alone: one picture track with an edit, the movie's time scale the same as the track's.
 */
export async function endEditAt(path: string, ticks: number): Promise<void> {
  const file = await open(path, 'r+');
  try {
    const movie = await readMovie(file);
    const field = movie === null ? null : lastDuration(movie.content);
    if (movie === null || field === null) throw new Error(`${path} has no edit of its pictures`);
    const bytes = Buffer.alloc(field.bytes);
    if (field.bytes === 8) bytes.writeBigUInt64BE(BigInt(ticks));
    else bytes.writeUInt32BE(ticks);
    await file.write(bytes, 0, bytes.length, movie.offset + field.offset);
  } finally {
    await file.close();
  }
}

/** Where the duration of the last edit of the picture track stands, within the content of a moov box. */
function lastDuration(moov: DataView): { readonly offset: number; readonly bytes: 4 | 8 } | null {
  for (const { type, content } of boxes(moov)) {
    if (type !== 'trak' || !holdsPictures(content)) continue;
    const edits = firstBox(content, 'edts');
    const list = edits === null ? null : firstBox(edits, 'elst');
    if (list === null || list.byteLength < 8) return null;
    const [wide, count] = [list.getUint8(0) === 1, list.getUint32(4)];
    const within = 8 + (count - 1) * (wide ? 20 : 12);
    return count === 0 ? null : { offset: list.byteOffset - moov.byteOffset + within, bytes: wide ? 8 : 4 };
  }
  return null;
}

/** 8.4.3 hdlr: the kind of a track stands 8 bytes into the content. */
function holdsPictures(trak: DataView): boolean {
  const media = firstBox(trak, 'mdia');
  const handler = media === null ? null : firstBox(media, 'hdlr');
  return handler !== null && handler.byteLength >= 12 && handler.getUint32(8) === VIDE;
}

/** "vide" in ASCII. */
const VIDE = 0x76696465;
