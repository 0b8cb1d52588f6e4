/** Samples that hang together and changed for good, small and about as wide as high, as a ball is. */
export interface Patch {
  /** Left and top, and numbers of its samples. */
  readonly x: number;
  readonly y: number;
  readonly samples: readonly number[];
  /** What lay round it, before and after; grey values. */
  readonly roundBefore: number;
  readonly roundAfter: number;
}

/** A ball covers no more than this part of the picture, and at least so many samples. */
const MOST_OF_PICTURE = 1 / 900;
const LEAST_SAMPLES = 2;
/** It is at most so many times as long as wide, but for a sample that a small one may have more. */
const LONGEST = 2.2;
/** Of its own upright box it fills at least this part. */
const FILLS = 0.45;
/** What lies round it is looked at this far off, and is this wide; samples. */
const ROUND = { gap: 1, width: 2 } as const;

/** All patches that differ by more than `changed` between two pictures of one size. */
export function patches(
  before: Float32Array,
  after: Float32Array,
  { width, height }: { readonly width: number; readonly height: number },
  changed: number,
): readonly Patch[] {
  const isChanged = (at: number): boolean => Math.abs((before[at] ?? 0) - (after[at] ?? 0)) > changed;
  const seen = new Uint8Array(width * height);
  const found: Patch[] = [];
  for (let first = 0; first < seen.length; first += 1) {
    if (seen[first] !== 0 || !isChanged(first)) continue;
    const samples = joined(first, seen, isChanged, width, height);
    const box = boxOf(samples, width);
    if (!isLikeBall(samples.length, box, width * height)) continue;
    const round = roundOf(box, width, height);
    const mean = (picture: Float32Array): number =>
      round.reduce((sum, at) => sum + (picture[at] ?? 0), 0) / Math.max(1, round.length);
    found.push({ x: box.left, y: box.top, samples, roundBefore: mean(before), roundAfter: mean(after) });
  }
  return found;
}

/** All samples that hang together with the first one, by their sides; marks them as seen. */
function joined(
  first: number,
  seen: Uint8Array,
  isChanged: (at: number) => boolean,
  width: number,
  height: number,
): readonly number[] {
  const samples: number[] = [];
  const open = [first];
  seen[first] = 1;
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    samples.push(at);
    const x = at % width;
    const beside = [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width];
    for (const next of beside) {
      if (next < 0 || next >= width * height || seen[next] !== 0 || !isChanged(next)) continue;
      seen[next] = 1;
      open.push(next);
    }
  }
  return samples;
}

interface Bounds {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxOf(samples: readonly number[], width: number): Bounds {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const at of samples) {
    left = Math.min(left, at % width);
    right = Math.max(right, at % width);
    top = Math.min(top, Math.floor(at / width));
    bottom = Math.max(bottom, Math.floor(at / width));
  }
  return { left, right, top, bottom };
}

function isLikeBall(count: number, { left, right, top, bottom }: Bounds, all: number): boolean {
  const [wide, high] = [right - left + 1, bottom - top + 1];
  const isSmall = count >= LEAST_SAMPLES && count <= MOST_OF_PICTURE * all;
  return isSmall && Math.max(wide, high) <= LONGEST * Math.min(wide, high) + 1 && count >= FILLS * wide * high;
}

/** Numbers of the samples of a frame round a box, as far as the picture goes. */
function roundOf({ left, right, top, bottom }: Bounds, width: number, height: number): readonly number[] {
  const reach = ROUND.gap + ROUND.width;
  const round: number[] = [];
  for (let y = Math.max(0, top - reach); y <= Math.min(height - 1, bottom + reach); y += 1)
    for (let x = Math.max(0, left - reach); x <= Math.min(width - 1, right + reach); x += 1) {
      const isInside =
        x >= left - ROUND.gap && x <= right + ROUND.gap && y >= top - ROUND.gap && y <= bottom + ROUND.gap;
      if (!isInside) round.push(y * width + x);
    }
  return round;
}
