import { beforeEach, describe, expect, test } from 'vitest';
import type { ProposedSwing } from '../../../../core/model/proposal.ts';
import { AppError } from '../../../../core/model/errors.ts';
import { closeBench, goTo, openBench } from '../../../../renderer/bench/state/bench-actions.ts';
import { lookFrom, openProposals, proposals } from '../../../../renderer/bench/state/open-proposals.ts';
import { acceptProposal, proposeSwing } from '../../../../renderer/bench/state/proposals.ts';
import { proposedPoints } from '../../../../renderer/bench/state/proposed-points.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { undo } from '../../../../renderer/swing/state/edit-actions.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { WRITTEN, controlProgram, turn } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';
import { proposedPointAt } from '../../../support/proposed-point.ts';

const frame = (at: number) => ({ frame: at, sure: true, by: 'motion' });
const FOUND: ProposedSwing = { address: frame(2), takeaway: null, top: frame(5), impact: frame(7) };
const HIP = { 'lead-knee': proposedPointAt(10, 10, 3) };
let program: ReturnType<typeof controlProgram>;

beforeEach(() => {
  program = controlProgram((name) => (name === 'edit/write' ? Promise.resolve({ ok: true, value: WRITTEN }) : null));
  for (const store of [proposals, proposedPoints]) store.update(() => ({}));
  const clips = [clipOf('x', 9), { ...clipOf('y', 9), view: 'down-the-line' as const }];
  const indexes = { x: indexOf(9), y: indexOf(9) };
  setApp({ swing: swingOf('a', clips), then: null, indexes, bench: null, history: emptyHistory(), jobs: [] });
});

const bench = () => {
  const { bench: at } = app.get();
  return at === null ? null : [at.clipId, at.index];
};
const clip = (id: string) => app.get().swing?.clips.find((each) => each.id === id);

async function answerClip(found: ProposedSwing | 'nothing swings' = FOUND): Promise<void> {
  await program.next('clip/propose').answer<'clip/propose'>(found);
  if (typeof found !== 'string')
    await program.next('clip/propose-points').answer<'clip/propose-points'>([HIP, HIP, null]);
  await turn();
}

describe('one press for a whole swing', () => {
  test('names frames and accepts their points with one Enter each, in both views, and leads back', async () => {
    const run = proposeSwing({ id: 'x' });
    await answerClip();
    expect(bench()).toEqual(['x', 2]);
    await answerClip();
    await run;
    for (let enter = 0; enter < 6; enter += 1) acceptProposal();
    expect(bench()).toBeNull();
    for (const id of ['x', 'y']) {
      expect(Object.values(clip(id)?.checkpoints ?? {}).map(({ index }) => index)).toEqual([2, 5, 7]);
      expect(clip(id)?.marks.map((marks) => [marks.frame.index, marks.points['lead-knee']?.guess])).toEqual([
        [2, 3],
        [5, 3],
      ]);
    }
    // Six names, and the points of four frames.
    expect(app.get().history.done).toHaveLength(10);
  });

  test('waits for the other view with who has accepted all of the first, and brings it where nothing is found in it', async () => {
    const run = proposeSwing({ id: 'x' });
    await answerClip();
    for (let enter = 0; enter < 3; enter += 1) acceptProposal();
    expect(bench()).toEqual(['x', 7]);
    await answerClip('nothing swings');
    await run;
    expect(bench()).toEqual(['y', 0]);
  });

  test('takes nobody along who went elsewhere; a frame that was stepped to is named without the points of another', async () => {
    const run = proposeSwing({ id: 'x' });
    await answerClip();
    goTo(3);
    acceptProposal();
    expect(clip('x')?.checkpoints.address?.index).toBe(3);
    expect(clip('x')?.marks).toEqual([]);
    closeBench();
    await answerClip();
    await run;
    expect(bench()).toBeNull();
    // What was found is not looked for again.
    await proposeSwing({ id: 'x' });
    expect(program.asked).toEqual([]);
    expect(bench()).toEqual(['x', 5]);
  });

  test('is cancelled as a whole; an accepted frame is taken back in two steps', async () => {
    const run = proposeSwing({ id: 'x' });
    await answerClip();
    acceptProposal();
    undo();
    expect(clip('x')?.checkpoints).toEqual({});
    undo();
    expect(clip('x')?.marks).toEqual([]);
    const ended = expect(run).rejects.toMatchObject({ code: 'cancelled' });
    await program.next('clip/propose').refuse(new AppError('cancelled', 'cancelled'));
    await ended;
    expect(program.asked).toEqual([]);
  });

  test('proposes no frame while its joints are looked for; that cancelled, the frames come and nothing more is asked', async () => {
    const run = proposeSwing({ id: 'x' });
    await program.next('clip/propose').answer<'clip/propose'>(FOUND);
    expect(proposals.get()).toEqual({});
    await program.next('clip/propose-points').refuse(new AppError('cancelled', 'cancelled'));
    await run;
    expect(bench()).toEqual(['x', 2]);
    expect(program.asked).toEqual([]);
  });
});

test('a takeaway is no step of the run: whoever looks for it begins at its frame, and Enter names it', async () => {
  const run = proposeSwing({ id: 'x' });
  await answerClip({ ...FOUND, takeaway: frame(3) });
  await answerClip('nothing swings');
  await run;
  for (let enter = 0; enter < 3; enter += 1) acceptProposal();
  const named = clip('x');
  if (named === undefined) throw new Error('the clip is gone');
  expect(named.checkpoints.takeaway).toBeUndefined();
  expect(openProposals(named, proposals.get())).toEqual([]);
  openBench('x', lookFrom(named, 'takeaway', proposals.get()), 'takeaway');
  expect(bench()).toEqual(['x', 3]);
  acceptProposal();
  expect(clip('x')?.checkpoints.takeaway?.index).toBe(3);
});
