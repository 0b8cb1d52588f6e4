/** Where a swing may turn round: a lull between a hump of motion before it and one after it. Frames. */
export interface TurnRound {
  /** The last frame before lasting motion. */
  readonly start: number;
  /** The last frame of the lull: after it the club comes down. */
  readonly top: number;
  /** The frame of most motion after it. */
  readonly peak: number;
  /** How far the lower of the two humps stands out over the lull, in the unit of the motion. */
  readonly depth: number;
}

/** A lull is looked for within this part of the clip on each side, so that a hump of noise is none. */
const NEIGHBOURHOOD = 0.012;
/** A hump must be this many times as high as the lull beside it. */
const STANDS_OUT = 2.2;
/** Of the hump before: motion below this part of it, or below what the clip shows at rest, is standing still. */
const STILL = 0.02;
const REST_TIMES = 3;
/** What the quietest part of a clip shows, as a part of its frames. */
const QUIET = 0.15;
/** For so long, as a part of the way back, it must be still before the start. */
const LASTING = 0.06;
/** The way down takes no longer than this part of the way back. */
const DOWN = 0.9;
/** Past this part of the clip's highest hump a lull may matter. */
const LEAST_DEPTH = 0.12;
/** Motion within this part of the way from the lull up to the peak belongs to the lull. */
const OF_LULL = 0.06;
const MOST = 5;

/**
 * The lulls of a clip's motion that may be a top, the most marked first, five at most. `motion` is that of each frame against the
 * one before; the first is 0. Empty where nothing swings.
 */
export function turnRounds(motion: readonly number[]): readonly TurnRound[] {
  const most = Math.max(0, ...motion);
  const near = Math.max(2, Math.round(motion.length * NEIGHBOURHOOD));
  const rest = REST_TIMES * quiet(motion);
  const found: TurnRound[] = [];
  for (let top = 2; top < motion.length - 2; top += 1) {
    const lull = motion[top] ?? 0;
    if (motion.slice(Math.max(0, top - near), top + near + 1).some((value) => value < lull)) continue;
    const before = humpBefore(motion, top, lull);
    if (before === null) continue;
    const start = startBefore(motion, before, rest);
    const peak = highest(
      motion,
      top + 1,
      Math.min(motion.length - 1, top + Math.max(4, Math.round(DOWN * (top - start)))),
    );
    const turned = lastLull(motion, { lull: top, peak });
    const depth = Math.min(motion[before] ?? 0, motion[peak] ?? 0) - lull;
    if (depth < LEAST_DEPTH * most || (motion[peak] ?? 0) < STANDS_OUT * lull) continue;
    // Frames of one lull lead to the same end of it.
    if (found.every((each) => each.top !== turned)) found.push({ start, top: turned, peak, depth });
  }
  return found.toSorted((one, other) => other.depth - one.depth).slice(0, MOST);
}

/** On the way from the peak back to a lull, the first frame that belongs to the lull. */
function lastLull(motion: readonly number[], { lull, peak }: { readonly lull: number; readonly peak: number }): number {
  const [low, high] = [motion[lull] ?? 0, motion[peak] ?? 0];
  for (let at = peak; at > lull; at -= 1) if ((motion[at] ?? 0) <= low + OF_LULL * (high - low)) return at;
  return lull;
}

/** The highest frame of the hump before a lull: on the way back from it until motion is down at the lull's level again. */
function humpBefore(motion: readonly number[], top: number, lull: number): number | null {
  let hump = top;
  for (let at = top - 1; at >= 0; at -= 1) {
    const value = motion[at] ?? 0;
    if (value > (motion[hump] ?? 0)) hump = at;
    if ((motion[hump] ?? 0) > STANDS_OUT * lull && value < Math.max(lull, 0.05 * (motion[hump] ?? 0))) break;
  }
  const height = motion[hump] ?? 0;
  return hump < top && height > 0 && height > STANDS_OUT * lull ? hump : null;
}

/** The last frame that is still before a hump, and has been for a while. */
function startBefore(motion: readonly number[], hump: number, rest: number): number {
  const still = Math.max(STILL * (motion[hump] ?? 0), rest);
  let quietSince = 0;
  for (let at = hump; at > 0; at -= 1) {
    quietSince = (motion[at] ?? 0) <= still ? quietSince + 1 : 0;
    if (quietSince >= Math.max(3, LASTING * (hump - at))) return at + quietSince - 1;
  }
  return 0;
}

/** What the clip shows where it is quietest: the highest of its quietest frames. */
function quiet(motion: readonly number[]): number {
  const sorted = motion.slice(1).toSorted((one, other) => one - other);
  return sorted[Math.floor(QUIET * sorted.length)] ?? 0;
}

function highest(values: readonly number[], from: number, to: number): number {
  let best = from;
  for (let at = from; at <= to; at += 1) if ((values[at] ?? 0) > (values[best] ?? 0)) best = at;
  return best;
}
