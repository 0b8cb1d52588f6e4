import { say } from '../../../core/model/say.ts';
import type { KeptFacts } from '../../../electron/ipc/contract.ts';
import { ask, onWindUp, settleRequests } from '../../api.ts';
import { readBook } from '../../book/state/book-actions.ts';
import { inputHandled } from './input-handled.ts';
import { attempt, sayTrouble, tellDone, tellTrouble } from './messages.ts';
import { readGoals } from '../../goals/state/goals.ts';
import { settleRows, takeOverRows } from './saved-rows.ts';
import { readSettings } from './settings.ts';
import { createStore } from './store.ts';
import { readSwingAgain } from '../../swing/state/swing-actions.ts';
import { stopRecording } from '../../talk/state/recording.ts';
import { unfinished } from './unfinished.ts';

/** Whether the window is about to close: then the page takes nothing more. */
export const windingUp = createStore<boolean>(false);

/** All by which a hand could still change something. */
const INPUT = [
  ...[
    'keydown',
    'keypress',
    'beforeinput',
    'paste',
    'drop',
    'pointerdown',
    'mousedown',
    'click',
    'touchstart',
    'submit',
  ],
] as const;

/** Follows whether the window is to close; returns how to stop. */
export function followWindUp(): () => void {
  const stop = (event: Event): void => {
    if (!windingUp.get()) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  for (const name of INPUT) window.addEventListener(name, stop, { capture: true });
  const stopFollowing = onWindUp((wanted) => {
    closing = wanted;
    if (closing) windUp().catch(tellTrouble);
    else windingUp.update(() => false);
  });
  return () => {
    stopFollowing();
    for (const name of INPUT) window.removeEventListener(name, stop, { capture: true });
  };
}

/** What the program wants at present; it may think otherwise before the page has got that far. */
let closing = false;

/** Hands over all that a hand has done so far, and tells the program when nothing is left in the page. */
async function windUp(): Promise<void> {
  await inputHandled();
  if (!closing) return;
  // A field that is typed in keeps what it holds once it is left.
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  windingUp.update(() => true);
  await inputHandled();
  // What is being said is kept up to here.
  await stopRecording();
  await Promise.all([settleRows(), settleRequests()]);
  if (closing) await ask('window/wound-up', { unfinished: unfinished() });
}

/** Tells the program that a page is there, and hears what one before it left behind. */
export async function readWrites(): Promise<void> {
  const { waiting, kept } = await ask('writes/read', null);
  takeOverRows(waiting);
  if (kept !== null) tellKept(kept);
}

/** Takes in changes that were kept in another folder, from a file that the coach chooses. */
export async function bringInKept(choose: boolean): Promise<void> {
  const kept = await takeIn(choose);
  if (kept !== null) tellKept(kept);
}

async function takeIn(choose: boolean) {
  try {
    return await ask('kept/take-in', { choose });
  } finally {
    // Some may be in the book also where others could not be brought in.
    await Promise.all([readBook(), readSwingAgain(), readGoals(), readSettings()]);
  }
}

function tellKept({ takenIn, sentence }: KeptFacts): void {
  if (takenIn) return tellDone(sentence);
  const nextStep = { label: say`Try again`, run: () => void attempt(() => bringInKept(false)) };
  sayTrouble(sentence, nextStep);
}
