import type { BookClip } from '../../../core/model/book.ts';
import type { ProposedFrame, ProposedSwing } from '../../../core/model/proposal.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { createStore } from '../../shell/state/store.ts';

/** In the order in which they are gone through. */
export const PROPOSED = ['address', 'top', 'impact'] as const satisfies readonly (Checkpoint & keyof ProposedSwing)[];

/** What was proposed of each clip, for as long as the program runs; none of it counts. */
export const proposals = createStore<Readonly<Record<string, ProposedSwing>>>({});

/** Clips that were looked through, whatever was found in them. */
export const lookedThrough = createStore<Readonly<Record<string, true>>>({});

/** A checkpoint that the clip has no frame for, and the frame that it may be. */
export interface OpenProposal extends ProposedFrame {
  readonly checkpoint: Checkpoint;
}

/** The proposed frames that nobody has named or passed over yet. */
export function openProposals(
  clip: Pick<BookClip, 'id' | 'checkpoints'>,
  all: Readonly<Record<string, ProposedSwing>>,
): readonly OpenProposal[] {
  const found = all[clip.id];
  if (found === undefined) return [];
  return PROPOSED.filter((checkpoint) => clip.checkpoints[checkpoint] === undefined).map((checkpoint) => ({
    checkpoint,
    ...found[checkpoint],
  }));
}
