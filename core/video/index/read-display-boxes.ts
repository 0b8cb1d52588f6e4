import { open } from 'node:fs/promises';
import { joinMatrices, orientationOf } from '../../time/display-matrix.ts';
import type { DisplayMatrix, Orientation } from '../../time/display-matrix.ts';
import { firstBox, readMovie, tracks } from './movie-boxes.ts';

const IDENTITY: DisplayMatrix = { a: 1, b: 0, c: 0, d: 1 };

/**
 * How the pictures of each track of an MP4 or MOV file are brought upright, by track id: the movie's matrix after the
 * track's (ISO/IEC 14496-12, 8.2.2 mvhd and 8.3.2 tkhd). ffmpeg's report prints the turn but not whether a picture is
 * mirrored, hence this reader. Tracks it cannot read are left out; a file without a moov box gives an empty map.
 */
export async function readDisplayBoxes(path: string): Promise<ReadonlyMap<number, Orientation>> {
  const file = await open(path, 'r');
  try {
    const movie = await readMovie(file);
    return movie === null ? new Map() : trackOrientations(movie.content);
  } finally {
    await file.close();
  }
}

/** The same from the content of a moov box. */
export function trackOrientations(moov: DataView): ReadonlyMap<number, Orientation> {
  const movie = firstBox(moov, 'mvhd');
  const movieMatrix = movie === null ? IDENTITY : headerMatrix(movie, movieMatrixOffset(movie));
  const orientations = new Map<number, Orientation>();
  for (const { id, header } of tracks(moov)) {
    const matrix = headerMatrix(header, header.getUint8(0) === 1 ? 52 : 40);
    orientations.set(id, orientationOf(joinMatrices(matrix, movieMatrix)));
  }
  return orientations;
}

const movieMatrixOffset = (mvhd: DataView): number => (mvhd.byteLength > 0 && mvhd.getUint8(0) === 1 ? 48 : 36);

/** 16.16 fixed point; the columns u and v of a 3 x 3 matrix stand between. */
function headerMatrix(box: DataView, offset: number): DisplayMatrix {
  if (box.byteLength < offset + 20) return IDENTITY;
  const at = (place: number): number => box.getInt32(offset + place * 4) / 65536;
  return { a: at(0), b: at(1), c: at(3), d: at(4) };
}
