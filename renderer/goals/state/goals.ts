import { say } from '../../../core/model/say.ts';
import { changedChain, changedRange } from '../../../core/measure/goals/goals-source.ts';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import type { Chain, Goals, ReadGoals, WantedRange } from '../../../core/model/goals.ts';
import { ask } from '../../api.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { createSavedWhole } from '../../shell/state/saved-whole.ts';
import type { Found } from '../../shell/state/saved-whole.ts';
import { withEntry } from './goals-edit.ts';

const kept = createSavedWhole<ReadGoals>({
  row: 'goals',
  // Nothing is wanted until it is read.
  initial: { goals: EMPTY_GOALS, shippedGoals: EMPTY_GOALS, shipped: true, trouble: null },
  read: async () => found(await ask('goals/read', null)),
  write: ({ goals }) => ask('goals/write', goals),
});

function found(whole: ReadGoals): Found<ReadGoals> {
  return { whole, trouble: whole.trouble };
}

/** The goals of the book. */
export const ownGoals = kept.shown;
export const goalsSaving = kept.saving;

/** Reads the goals at start. */
export const readGoals = (): Promise<void> => kept.read();

/** Puts a changed goals to use at once, and keeps it. */
export function changeGoals(part: Partial<Goals>): void {
  kept.change((state) => ({ ...state, goals: { ...state.goals, ...part }, shipped: false, trouble: null }));
}

/** Changes a part of one wanted range; what it says of its source follows. */
export function changeRange(index: number, part: Partial<WantedRange>): void {
  const { goals, shippedGoals } = ownGoals.get();
  const range = goals.wanted[index];
  if (range === undefined) return;
  changeGoals({ wanted: withEntry(goals.wanted, index, changedRange(range, part, shippedGoals)) });
}

/** Changes a part of one chain; what it says of its source follows. */
export function changeChain(index: number, part: Partial<Chain>): void {
  const { goals, shippedGoals } = ownGoals.get();
  const chain = goals.chains[index];
  if (chain === undefined) return;
  changeGoals({ chains: withEntry(goals.chains, index, changedChain(chain, part, shippedGoals)) });
}

/** Back to the goals that ship with the program; the coach's own are gone, also what of them was not written yet. */
export async function resetGoals(): Promise<void> {
  await kept.replace(async () => found(await ask('goals/reset', null)));
}

/** Writes the goals where the coach says. Where the latest changes could not be saved, none are written: they would lack them. */
export async function exportGoals(): Promise<void> {
  await kept.settle();
  const written = await ask('goals/export', null);
  if (written !== null) tellDone(say`Wrote the goals to ${written.path}`);
}

/** Takes the goals of a file that the coach chooses. Answers whether one was taken. */
export async function importGoals(): Promise<boolean> {
  let path = '';
  const isTaken = await kept.replace(async () => {
    const taken = await ask('goals/import', null);
    if (taken === null) return null;
    path = taken.path;
    return found(taken.read);
  });
  if (isTaken) tellDone(say`This book has the goals of ${path} now`);
  return isTaken;
}
