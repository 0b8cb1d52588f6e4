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

type Named = Pick<BookClip, 'id' | 'checkpoints'>;
type Proposals = Readonly<Record<string, ProposedSwing>>;

/**
 * The proposed frames that nobody has named or passed over yet. The takeaway is not asked for, as few readings want it: it comes
 * first where it is what the coach looks for, and not at all else.
 */
export function openProposals(
  clip: Named,
  all: Proposals,
  looksFor: Checkpoint | null = null,
): readonly OpenProposal[] {
  const found = all[clip.id];
  if (found === undefined) return [];
  const takeaway = looksFor === 'takeaway' ? openTakeaway(clip, all) : null;
  const usual = PROPOSED.filter((checkpoint) => clip.checkpoints[checkpoint] === undefined).map((checkpoint) => ({
    checkpoint,
    ...found[checkpoint],
  }));
  return takeaway === null ? usual : [takeaway, ...usual];
}

/** The takeaway that is proposed and not named; null: none is. */
export function openTakeaway({ id, checkpoints }: Named, all: Proposals): OpenProposal | null {
  const found = all[id]?.takeaway ?? null;
  return found === null || checkpoints.takeaway !== undefined ? null : { checkpoint: 'takeaway', ...found };
}

/** The frame that a checkpoint may be, to begin looking from; the first of the clip where nothing is proposed. */
export function lookFrom(clip: Named, checkpoint: Checkpoint, all: Proposals): number {
  const [first] = openProposals(clip, all, checkpoint).filter((each) => each.checkpoint === checkpoint);
  return first?.frame ?? 0;
}
