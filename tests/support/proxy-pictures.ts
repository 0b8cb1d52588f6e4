import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { ClipProxy } from '../../core/video/proxy/proxy-store.ts';
import { readCode } from './coded-picture.ts';
import { seeded } from './seeded.ts';
import { pixelsOfAll } from './window-pixels.ts';

/** Kinds of the units that an H.264 picture (Annex B) consists of, in order (ITU-T H.264, table 7-1). */
export function unitKinds(data: Uint8Array): number[] {
  const kinds: number[] = [];
  for (let at = 0; at + 3 < data.length; at += 1)
    if (data[at] === 0 && data[at + 1] === 0 && data[at + 2] === 1) kinds.push((data[at + 3] ?? 0) & 31);
  return kinds;
}

/** Whether a picture needs no other one: parameter sets, then slices of an IDR picture only (beside remarks, kind 6). */
export function standsAlone(data: Uint8Array): boolean {
  const kinds = unitKinds(data).filter((kind) => kind !== 6);
  return kinds[0] === 7 && kinds[1] === 8 && kinds.length > 2 && kinds.slice(2).every((kind) => kind === 5);
}

/**
 * The numbers that the pictures at these times carry, in the order of the times. They are decoded in another order than
 * that of the clip, so that one that needed its neighbour would come out wrong. Throws when one is not there.
 */
export async function proxyCodes(ffmpeg: Ffmpeg, copy: ClipProxy, times: readonly number[]): Promise<number[]> {
  return (await codesOfCopies(ffmpeg, [copy], times))[0] ?? [];
}

/** The same for several copies of one clip, decoded in one run. */
export async function codesOfCopies(
  ffmpeg: Ffmpeg,
  copies: readonly ClipProxy[],
  times: readonly number[],
): Promise<number[][]> {
  const random = seeded(times.length);
  const shuffled = copies
    .flatMap((copy, which) => times.map((pts, place) => ({ copy, which, pts, place, key: random() })))
    .sort((a, b) => a.key - b.key);
  const pictures = await Promise.all(
    shuffled.map(async ({ copy, pts }) => {
      const { width, height } = copy;
      const data = await copy.read(pts);
      if (data === null) throw new Error(`no picture at ${pts}`);
      if (!standsAlone(data)) throw new Error(`the picture at ${pts} needs others: ${unitKinds(data).join()}`);
      return { layout: { kind: 'proxy', width, height, matrix: 'bt709', fullRange: false } as const, data };
    }),
  );
  const codes = copies.map((): number[] => []);
  for (const [order, pixels] of pixelsOfAll(ffmpeg, pictures).entries()) {
    const { which, place } = shuffled[order] ?? { which: -1, place: -1 };
    const ofCopy = codes[which];
    if (ofCopy !== undefined) ofCopy[place] = readCode(pixels);
  }
  return codes;
}
