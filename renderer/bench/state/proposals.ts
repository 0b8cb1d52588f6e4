import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { NoProposal, ProposedFrame, ProposedSwing } from '../../../core/model/proposal.ts';
import { CHECKPOINT_LABELS, type Checkpoint } from '../../../core/model/words.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { createStore } from '../../shell/state/store.ts';
import { nameFrame } from '../../swing/state/edit-actions.ts';
import { goTo } from './bench-actions.ts';

/** In the order in which they are gone through. */
const PROPOSED = ['address', 'top', 'impact'] as const satisfies readonly (Checkpoint & keyof ProposedSwing)[];

/** What was proposed of each clip, for as long as the program runs; none of it counts. */
export const proposals = createStore<Readonly<Record<string, ProposedSwing>>>({});

const WHY: Readonly<Record<NoProposal, string>> = {
  'nothing swings': say`No swing was found in this clip. Find the frames by hand.`,
  'all moves': say`Too much moves in this clip to find the swing. Find the frames by hand.`,
};

/**
 * Looks through a clip for its swing, and goes to the first frame that it may be. Whoever went on to another frame meanwhile, or
 * has a hand at work there, stays: "Back to frame" leads to it.
 */
export async function proposeSwing({ id }: Pick<BookClip, 'id'>): Promise<void> {
  const asked = app.get().bench;
  const found = await runJob(say`Looking for the swing`, (jobId) => ask('clip/propose', { jobId, id }));
  if (typeof found === 'string') return void tellDone(WHY[found]);
  proposals.update((all) => ({ ...all, [id]: found }));
  const { bench } = app.get();
  if (bench?.clipId === id && bench.index === asked?.index && bench.tool.name === 'idle') goToProposed();
}

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

/** E.g. "Impact? The ball is gone from where it lay.", "Address? Unsure: the last frame before lasting motion." */
export function proposalWords({ checkpoint, by, sure }: OpenProposal): string {
  const label = CHECKPOINT_LABELS[checkpoint];
  return sure ? `${label}? ${by.charAt(0).toUpperCase()}${by.slice(1)}.` : say`${label}? Unsure: ${by}.`;
}

/** Goes to the first frame that is proposed and not named. */
export function goToProposed(): void {
  const [next] = openHere();
  if (next !== undefined) goTo(next.frame);
}

/** The frame on the bench gets the name that is proposed first, also where the coach went on a step; then the next one comes. */
export function acceptProposal(): void {
  const { bench } = app.get();
  const [next] = openHere();
  if (bench === null || next === undefined) return;
  nameFrame(bench.clipId, next.checkpoint, bench.index);
  goToProposed();
}

function openHere(): readonly OpenProposal[] {
  const { bench, swing } = app.get();
  const clip = swing?.clips.find(({ id }) => id === bench?.clipId);
  return clip === undefined ? [] : openProposals(clip, proposals.get());
}
