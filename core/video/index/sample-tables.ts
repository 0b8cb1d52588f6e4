/** More coded pictures than ten hours at 240 a second hold are taken for a lie of the file. */
const MOST_SAMPLES = 10_000_000;

/** Tables of samples of an MP4 or MOV track (ISO/IEC 14496-12, 8.6 and 8.7). */

/** mdhd and mvhd begin alike: a version that tells how long their first two times are, then ticks a second. */
export function timescaleOf(header: DataView | null): number | null {
  const at = header !== null && header.byteLength > 0 && header.getUint8(0) === 1 ? 20 : 12;
  if (header === null || header.byteLength < at + 4) return null;
  return header.getUint32(at) || null;
}

/** Bytes of each sample (stsz); null without the box, or where it is shorter than it says. */
export function sizesOf(box: DataView | null): Float64Array | null {
  if (box === null || box.byteLength < 12) return null;
  const common = box.getUint32(4);
  const count = box.getUint32(8);
  if (count === 0 || count > MOST_SAMPLES || (common === 0 && box.byteLength < 12 + count * 4)) return null;
  const sizes = new Float64Array(count).fill(common);
  if (common === 0) for (let place = 0; place < count; place += 1) sizes[place] = box.getUint32(12 + place * 4);
  return sizes;
}

/** Calls for each of the first `count` samples with its value in a table of runs (how many, value as signed 32 bits). */
export function eachOfRuns(box: DataView | null, count: number, take: (place: number, value: number) => void): void {
  if (box === null || box.byteLength < 8) return;
  const runs = Math.min(box.getUint32(4), Math.floor((box.byteLength - 8) / 8));
  let place = 0;
  for (let run = 0; run < runs && place < count; run += 1) {
    const end = Math.min(count, place + box.getUint32(8 + run * 8));
    const value = box.getInt32(12 + run * 8);
    for (; place < end; place += 1) take(place, value);
  }
}
