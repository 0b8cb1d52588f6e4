import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { NoProposal } from '../../../core/model/proposal.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS, type Checkpoint } from '../../../core/model/words.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { isBusy, runJob } from '../../shell/state/jobs.ts';
import { attempt, tellDone } from '../../shell/state/messages.ts';
import { nameFrame } from '../../swing/state/edit-actions.ts';
import { nextPoint, pointsOfView } from '../../tools/points-tool.ts';
import { benchClip, chooseTool, closeBench, goTo, keptMarks, openBench, runOf } from './bench-actions.ts';
import { lookedThrough, openProposals, PROPOSED, proposals, type OpenProposal } from './open-proposals.ts';
import { acceptPoints, openOnNamed, openPoints, proposedPoints, proposePointsOn } from './proposed-points.ts';

export const PROPOSE_HINT = say`Baybook looks for address, top and impact of both views, and for the joints on them. You say whether they are right.`;

const WHY: Readonly<Record<NoProposal, string>> = {
  'nothing swings': say`No swing was found in this clip. Find the frames by hand.`,
  'all moves': say`Too much moves in this clip to find the swing. Find the frames by hand.`,
};

/**
 * Looks through the clips of the open swing, that one first, for address, top and impact, and for the joints on each of them. As
 * soon as one is through, its first frame comes. Whoever went on to another frame meanwhile, or has a hand at work there, stays:
 * "Back to frame" leads to it. A clip in which nothing is found comes to the bench too, as its frames are found by hand now. A cancel
 * ends all of it; frames that were found stay.
 */
export async function proposeSwing(first: Pick<BookClip, 'id'>): Promise<void> {
  const { swing, bench: asked } = app.get();
  const clips = swing?.clips ?? [];
  const inOrder = [...clips.filter(({ id }) => id === first.id), ...clips.filter(({ id }) => id !== first.id)];
  begunFrom = asked === null ? 'sheet' : 'bench';
  waitsAt = placeNow();
  for (const clip of inOrder.filter(isUnnamed)) {
    lookedThrough.update((all) => ({ ...all, [clip.id]: true }));
    const isWhole = await proposeClip(clip);
    const { bench, swing: open } = app.get();
    if (open?.swing.id !== swing?.swing.id) return;
    const [next] = openProposals(clip, proposals.get());
    const isThere = placeNow() === waitsAt && (bench === null || bench.tool.name === 'idle');
    if (isThere && (next !== undefined || isWhole)) {
      waitsAt = null;
      if (bench?.clipId !== clip.id) openBench(clip.id, next?.frame ?? 0);
      else if (next !== undefined) goTo(next.frame);
    }
    if (!isWhole) return;
  }
  if (waitsAt !== null && waitsAt === placeNow()) leave();
}

/** Where the coach goes once all of it is accepted: back to where it was asked for. */
let begunFrom: 'sheet' | 'bench' = 'bench';
/** Where the coach is while there is nothing to accept yet: who is still there is taken to what comes. Null: there is something. */
let waitsAt: string | null = null;

/** Where the window stands: a frame on the bench, or a page. */
function placeNow(): string {
  const { bench, comparing, route } = app.get();
  if (bench !== null) return `${bench.clipId} ${String(bench.index)}`;
  return comparing === null ? JSON.stringify(route) : 'comparison';
}

function leave(): void {
  waitsAt = null;
  if (begunFrom === 'sheet' && app.get().bench !== null) closeBench();
  begunFrom = 'bench';
}

/** Whether one of the frames that are looked for has no name yet. */
export function isUnnamed({ checkpoints }: Pick<BookClip, 'checkpoints'>): boolean {
  return PROPOSED.some((checkpoint) => checkpoints[checkpoint] === undefined);
}

/**
 * Proposes frames and joints of one clip; false where the joints were not looked for, as it was cancelled meanwhile. Nothing is
 * proposed before all is there: whoever pressed Enter sooner would name a frame that nobody looked at.
 */
async function proposeClip(clip: BookClip): Promise<boolean> {
  const { id } = clip;
  const known = app.get().indexes[id];
  const isCurrent = (): boolean => app.get().indexes[id] === known;
  const found =
    proposals.get()[id] ?? (await runJob(say`Looking for the swing`, (jobId) => ask('clip/propose', { jobId, id })));
  if (typeof found === 'string') {
    tellDone(`${VIEW_LABELS[clip.view]}: ${WHY[found]}`);
    return true;
  }
  const looked = proposedPoints.get()[id] ?? {};
  const wanted = openProposals(clip, { [id]: found })
    .filter(({ frame }, at, all) => all.findIndex((each) => each.frame === frame) === at && looked[frame] === undefined)
    .map(({ frame, checkpoint }) => ({ frame, checkpoint }));
  const isWhole = await attempt(() => proposePointsOn(clip, wanted, isCurrent));
  // Frames that were numbered anew meanwhile are not those that were looked at.
  if (isCurrent()) proposals.update((all) => ({ ...all, [id]: found }));
  return isWhole;
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

/**
 * The frame on the bench gets the name that is proposed first, also where the coach went on a step; the points that are proposed on
 * it are accepted with it. Then the next one comes, at last of the other view. On a frame that has its name and waits for its points
 * those are accepted.
 */
export function acceptProposal(): void {
  const { bench } = app.get();
  const [next] = openHere();
  const [clip, marks] = [benchClip(app.get()), keptMarks(app.get())];
  if (clip !== null && marks !== null) {
    const open = openOnNamed(clip, marks);
    if (open.length > 0) return acceptPoints(clip, marks, open);
  }
  if (bench === null || next === undefined) return;
  // Only what is seen on it: after a step other points stand here, or none.
  if (clip !== null && marks !== null && bench.index === next.frame)
    acceptPoints(clip, marks, pointsOfView(clip.view, next.checkpoint));
  nameFrame(bench.clipId, next.checkpoint, bench.index);
  if (openHere().length > 0) return goToProposed();
  for (const other of app.get().swing?.clips ?? []) {
    const [first] = openProposals(other, proposals.get());
    if (first !== undefined) return openBench(other.id, first.frame);
  }
  // Another clip is still looked through.
  if (isBusy(app.get())) waitsAt = placeNow();
  else if (begunFrom === 'bench' && bench.index !== next.frame) takePointsInHand();
  else leave();
}

/**
 * A hand names the frame on the bench. Frames and points were asked for in one press: where that has brought no points for this
 * frame, the coach places them, so their tool comes to hand. It costs no press more than without any proposal.
 */
export function nameByHand(clipId: string, checkpoint: Checkpoint, index: number): void {
  nameFrame(clipId, checkpoint, index);
  takePointsInHand();
}

function takePointsInHand(): void {
  const { bench } = app.get();
  const [clip, marks] = [benchClip(app.get()), keptMarks(app.get())];
  if (bench === null || clip === null || marks === null || lookedThrough.get()[clip.id] !== true) return;
  const run = runOf(clip, bench.index);
  const isIdle = bench.tool.tool === 'move' && bench.tool.name === 'idle';
  if (isIdle && openPoints(clip, marks, run).length === 0 && nextPoint(run, marks, null) !== null) chooseTool('points');
}

/** The points that Enter would accept with the name of the frame on the bench. */
export function pointsWithName(clip: BookClip, marks: FrameMarks, proposed: OpenProposal | undefined): number {
  if (proposed === undefined) return 0;
  return openPoints(clip, marks, pointsOfView(clip.view, proposed.checkpoint)).length;
}

function openHere(): readonly OpenProposal[] {
  const { bench, swing } = app.get();
  const clip = swing?.clips.find(({ id }) => id === bench?.clipId);
  return clip === undefined ? [] : openProposals(clip, proposals.get(), bench?.looksFor ?? null);
}
