// @vitest-environment jsdom
import { beginEmpty } from '../../shown-view.tsx';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { goTo, openBench } from '../../../../renderer/bench/state/bench-actions.ts';
import { followMovedNames } from '../../../../renderer/bench/state/follow-moved-names.ts';
import { proposals } from '../../../../renderer/bench/state/open-proposals.ts';
import { acceptProposal, proposeSwing } from '../../../../renderer/bench/state/proposals.ts';
import { proposedPoints } from '../../../../renderer/bench/state/proposed-points.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { keepMarks, nameFrame, undo } from '../../../../renderer/swing/state/edit-actions.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { proposedPointAt } from '../../../support/proposed-point.ts';
import { WRITTEN, controlProgram } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

beginEmpty();

const KNEE = { 'lead-knee': proposedPointAt(10, 10, 3) };
const frame = (at: number) => ({ frame: at, sure: true, by: 'motion' });
let program: ReturnType<typeof controlProgram>;
let stop: () => void;

beforeEach(() => {
  vi.useFakeTimers({ shouldAdvanceTime: true });
  program = controlProgram((name) => (name === 'edit/write' ? Promise.resolve({ ok: true, value: WRITTEN }) : null));
  for (const store of [proposals, proposedPoints]) store.update(() => ({}));
  const swing = swingOf('a', [clipOf('x', 20)]);
  setApp({ swing, then: null, indexes: { x: indexOf(20) }, bench: null, history: emptyHistory(), jobs: [] });
  stop = followMovedNames();
});
afterEach(() => {
  stop();
  vi.useRealTimers();
});

const rest = () => vi.advanceTimersByTimeAsync(1000);
const clip = () => app.get().swing?.clips[0];
const marked = () => clip()?.marks.map((marks) => [marks.frame.index, Object.keys(marks.points)]);

/** Names found by one press, with points on address and top; nothing is accepted yet. */
async function proposed(): Promise<void> {
  const run = proposeSwing({ id: 'x' });
  const found = { address: frame(2), takeaway: null, top: frame(9), impact: frame(15) };
  await program.next('clip/propose').answer<'clip/propose'>(found);
  await program.next('clip/propose-points').answer<'clip/propose-points'>([KNEE, KNEE, null]);
  await run;
}

describe('a name that is moved onto another frame', () => {
  test('has points looked for there, once it rests; one Enter accepts them, in one edit', async () => {
    await proposed();
    acceptProposal();
    expect(app.get().bench?.index).toBe(9);
    goTo(10);
    acceptProposal();
    expect(program.asked).toEqual([]);
    await rest();
    const asked = program.next('clip/propose-points');
    expect(asked.input).toMatchObject({ id: 'x', frames: [{ frame: 10, checkpoint: 'top' }] });
    // Nothing waits for it: the run goes on.
    expect(app.get().jobs).toMatchObject([{ aside: true }]);
    expect(app.get().bench?.index).toBe(15);
    acceptProposal();
    await asked.answer<'clip/propose-points'>([KNEE]);
    expect(marked()).toEqual([[2, ['lead-knee']]]);

    openBench('x', 10);
    const edits = app.get().history.done.length;
    acceptProposal();
    expect(marked()).toEqual([
      [2, ['lead-knee']],
      [10, ['lead-knee']],
    ]);
    expect(app.get().history.done).toHaveLength(edits + 1);
    undo();
    expect(marked()).toEqual([[2, ['lead-knee']]]);
  });

  test('step by step is looked at where it comes to rest, and what it left is not copied', async () => {
    await proposed();
    acceptProposal();
    for (const step of [3, 4, 5]) nameFrame('x', 'address', step);
    expect(app.get().messages.map(({ text }) => text)).toEqual([
      'Address is now frame 3. Its points are looked for there anew.',
    ]);
    await rest();
    expect(program.next('clip/propose-points').input).toMatchObject({ frames: [{ frame: 5, checkpoint: 'address' }] });
    expect(program.asked).toEqual([]);
  });

  test('is left alone where a hand has marked, where it was looked before, and where nothing was ever proposed', async () => {
    nameFrame('x', 'finish', 18);
    await rest();
    expect(program.asked).toEqual([]);
    await proposed();
    const points = { 'lead-hip': { x: 1, y: 2, hidden: false } };
    keepMarks('x', { frame: { index: 3, pts: 3 }, points, shapes: [] });
    nameFrame('x', 'address', 3);
    nameFrame('x', 'top', 9);
    await rest();
    nameFrame('x', 'address', 2);
    await rest();
    expect(program.asked).toEqual([]);
  });

  test('of a clip whose points were accepted on another day has them looked for as well', async () => {
    const points = { 'lead-knee': { ...KNEE['lead-knee'], hidden: false } };
    keepMarks('x', { frame: { index: 2, pts: 2 }, points, shapes: [] });
    nameFrame('x', 'address', 2);
    nameFrame('x', 'address', 4);
    await rest();
    expect(program.next('clip/propose-points').input).toMatchObject({ frames: [{ frame: 4, checkpoint: 'address' }] });
  });
});
