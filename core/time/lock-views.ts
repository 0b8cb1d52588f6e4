import { lowered, say } from '../model/say.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../model/words.ts';
import type { Checkpoint } from '../model/words.ts';
import type { ShownFrame } from './clip-index.ts';
import { slowingOf } from './swing-clock.ts';
import type { ClockedClip } from './swing-clock.ts';

/** One of two clips that are looked at together: its times, what is named in it, and its frames. */
export interface LockableClip extends ClockedClip {
  readonly checkpoints: Readonly<Partial<Record<Checkpoint, { readonly pts: number }>>>;
  /** One or more, in presentation order. */
  readonly frames: readonly Pick<ShownFrame, 'pts'>[];
}

/** How the frames of one clip go with those of another. */
export interface ViewLock {
  /** The checkpoints that hold the two together, in the order of the swing; one or more. */
  readonly checkpoints: readonly Checkpoint[];
  /**
   * Index of the other clip's frame nearest in time to frame `index` of the first; never falls as `index` grows, and is
   * the named frame itself at every checkpoint of the lock. What lies before the other clip's first frame or after its last
   * one goes with that one, also for an `index` outside of the first clip.
   */
  frameFor(index: number): number;
}

/** The same instant in both clips, each in ticks of its own. */
interface Tie {
  readonly checkpoint: Checkpoint;
  readonly from: number;
  readonly to: number;
}

/**
 * Locks `to` to `from` by the checkpoints that are named in both, impact before all. Between two of them time runs evenly,
 * whatever the rates of the clips are. Before the first and after the last it runs as in the swing itself where both
 * capture rates are known, else as in the nearest piece, else as the files play. A checkpoint that stands in another order
 * in one clip than in the other is left out, never impact. Null when no checkpoint is named in both.
 */
export function lockViews(from: LockableClip, to: LockableClip): ViewLock | null {
  const ties = tiesOf(from, to);
  const [first, last] = [ties[0], ties.at(-1)];
  if (first === undefined || last === undefined || from.frames.length === 0 || to.frames.length === 0) return null;

  const inSwing = trueSlope(from, to);
  const asPlayed = secondsATick(from) / secondsATick(to);
  const before = inSwing ?? slopeOf(first, ties[1]) ?? asPlayed;
  const after = inSwing ?? slopeOf(ties.at(-2), last) ?? asPlayed;

  const timeFor = (pts: number): number => {
    if (pts <= first.from) return first.to + (pts - first.from) * before;
    if (pts >= last.from) return last.to + (pts - last.from) * after;
    const next = ties.findIndex((tie) => tie.from > pts);
    const [a, b] = [ties[next - 1] ?? first, ties[next] ?? last];
    // Multiplied before it is divided: whole numbers, so that a named frame is met exactly.
    return a.to + ((pts - a.from) * (b.to - a.to)) / (b.from - a.from);
  };
  return {
    checkpoints: CHECKPOINTS.filter((checkpoint) => ties.some((tie) => tie.checkpoint === checkpoint)),
    frameFor(index) {
      const inside = Math.min(from.frames.length - 1, Math.max(0, index));
      return nearestFrame(to.frames, timeFor(from.frames[inside]?.pts ?? 0));
    },
  };
}

/** What a coach has to name so that two clips lock; `names` are what the clips are called, e.g. "face on". */
export function whatLockNeeds(
  from: Pick<LockableClip, 'checkpoints'>,
  to: Pick<LockableClip, 'checkpoints'>,
  names: { readonly from: string; readonly to: string },
): string {
  const isNamed = (checkpoint: Checkpoint): boolean =>
    from.checkpoints[checkpoint] !== undefined || to.checkpoints[checkpoint] !== undefined;
  const wanted = isNamed('impact') ? 'impact' : (CHECKPOINTS.find(isNamed) ?? 'impact');
  const lacking = [
    ...(from.checkpoints[wanted] === undefined ? [names.from] : []),
    ...(to.checkpoints[wanted] === undefined ? [names.to] : []),
  ];
  const [name, [first = '', second]] = [lowered(CHECKPOINT_LABELS[wanted]), lacking];
  return second === undefined
    ? say`Name ${name} in ${first}, so that both show the same instant.`
    : say`Name ${name} in ${first} and in ${second}, so that both show the same instant.`;
}

/** The largest set of common checkpoints that follow each other in both clips, in order of time. */
function tiesOf(from: LockableClip, to: LockableClip): readonly Tie[] {
  const common = CHECKPOINTS.flatMap((checkpoint): Tie[] => {
    const [a, b] = [from.checkpoints[checkpoint], to.checkpoints[checkpoint]];
    return a === undefined || b === undefined ? [] : [{ checkpoint, from: a.pts, to: b.pts }];
  });
  const impact = common.find(({ checkpoint }) => checkpoint === 'impact');
  const fitting = common
    .filter((tie) => impact === undefined || tie === impact || follows(tie, impact) || follows(impact, tie))
    .toSorted((a, b) => a.from - b.from || a.to - b.to);
  // Longest chain that ends with each: eight checkpoints at most.
  const chains: (readonly Tie[])[] = [];
  for (const tie of fitting) {
    const earlier = chains.filter((chain) => follows(tie, chain.at(-1)));
    chains.push([...longest(earlier), tie]);
  }
  return longest(chains.filter((chain) => impact === undefined || chain.includes(impact)));
}

function follows(later: Tie, earlier: Tie | undefined): boolean {
  return earlier !== undefined && later.from > earlier.from && later.to > earlier.to;
}

function longest(chains: readonly (readonly Tie[])[]): readonly Tie[] {
  return chains.reduce((best, chain) => (chain.length > best.length ? chain : best), []);
}

/** Ticks of `to` that pass in one tick of `from`; null without two ties. */
function slopeOf(a: Tie | undefined, b: Tie | undefined): number | null {
  return a === undefined || b === undefined ? null : (b.to - a.to) / (b.from - a.from);
}

/** Ticks of `to` in one tick of `from` by the time of the swing; null unless both capture rates are known. */
function trueSlope(from: LockableClip, to: LockableClip): number | null {
  const [a, b] = [slowingOf(from), slowingOf(to)];
  return a === null || b === null ? null : (secondsATick(from) * a) / (secondsATick(to) * b);
}

function secondsATick({ timebase }: LockableClip): number {
  return timebase.num / timebase.den;
}

/** Index of the frame nearest to `pts`, the earlier one of two that are as near. */
function nearestFrame(frames: readonly Pick<ShownFrame, 'pts'>[], pts: number): number {
  let [low, high] = [0, frames.length - 1];
  // The first frame that is not before `pts`, or the last one of all.
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((frames[middle]?.pts ?? Infinity) < pts) low = middle + 1;
    else high = middle;
  }
  const [before, at] = [frames[low - 1]?.pts, frames[low]?.pts];
  return before !== undefined && at !== undefined && pts - before <= at - pts ? low - 1 : low;
}
