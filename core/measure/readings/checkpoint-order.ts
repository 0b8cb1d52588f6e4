import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';

/**
 * The first two neighbours of a list of checkpoints whose named frames do not come strictly one after the other in the clip,
 * in the order of the list; null when all do. All must be named.
 */
export function outOfOrder(
  clip: Pick<MarkedClip, 'checkpoints'>,
  checkpoints: readonly Checkpoint[],
): readonly [Checkpoint, Checkpoint] | null {
  for (const [place, after] of checkpoints.entries()) {
    const before = checkpoints[place - 1];
    if (before === undefined) continue;
    const [first, second] = [clip.checkpoints[before], clip.checkpoints[after]];
    if (first === undefined || second === undefined || second.index <= first.index) return [before, after];
  }
  return null;
}
