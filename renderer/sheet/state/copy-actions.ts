import { lowered, say } from '../../../core/model/say.ts';
import {
  CHECKPOINT_LABELS,
  CHECKPOINTS,
  VIEW_LABELS,
  VIEWS,
  type Checkpoint,
  type View,
} from '../../../core/model/words.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { sayTrouble, tellDone } from '../../shell/state/messages.ts';
import { mayGoOut } from '../../swing/state/consent.ts';
import { settleWrites } from '../../swing/state/edit-actions.ts';

/** A still of the open swing: of then and now where both have that frame named. */
export interface StillHere {
  readonly view: View;
  readonly checkpoint: Checkpoint;
}

/** Puts the still for a phone on the clipboard, as a picture to be pasted. */
export async function copyStill(here: StillHere): Promise<void> {
  const order = orderOf(here);
  if (order === null || !(await mayGoOut())) return;
  await settleWrites();
  await runJob(say`Copying the still`, (jobId) => ask('stills/copy', { jobId, ...order }));
  tellDone(say`Copied the still of ${inWords(here)}. Paste it into a message.`);
}

/** Puts what it says on the clipboard, for a student who cannot see it. */
export async function copyStillText(here: StillHere): Promise<void> {
  const order = orderOf(here);
  if (order === null || !(await mayGoOut())) return;
  await settleWrites();
  await ask('stills/copy-text', order);
  tellDone(say`Copied the text of ${inWords(here)}. Paste it beside the still.`);
}

/** Writes the still where it can be dragged out of the window; null where it may not go out. */
export async function stillToDrag(here: StillHere): Promise<string | null> {
  const order = orderOf(here);
  if (order === null || !(await mayGoOut())) return null;
  await settleWrites();
  const { path } = await runJob(say`Getting the still ready`, (jobId) => ask('stills/drag', { jobId, ...order }));
  return path;
}

/** The still of the frame on the bench, or of the cell of the sheet that has the focus. */
export async function copyStillAtHand(): Promise<void> {
  const here = atHand();
  if (here === null)
    sayTrouble(
      say`No named frame is chosen. Open one on the bench, or move to its picture on the sheet, and copy again.`,
    );
  else await copyStill(here);
}

function orderOf({ view, checkpoint }: StillHere) {
  const { swing, then } = app.get();
  if (swing === null) return null;
  const isNamedThen = then?.clips.some((clip) => clip.view === view && clip.checkpoints[checkpoint] !== undefined);
  return {
    swingId: swing.swing.id,
    thenSwingId: isNamedThen === true && then !== null ? then.swing.id : null,
    view,
    checkpoint,
  };
}

function atHand(): StillHere | null {
  const { route, bench, swing } = app.get();
  if (route.at === 'bench' && bench !== null) {
    const clip = swing?.clips.find(({ id }) => id === bench.clipId);
    const checkpoint = CHECKPOINTS.find((each) => clip?.checkpoints[each]?.index === bench.index);
    return clip === undefined || checkpoint === undefined ? null : { view: clip.view, checkpoint };
  }
  const cell = document.activeElement?.closest<HTMLElement>('[data-still-view]')?.dataset;
  const view = VIEWS.find((each) => each === cell?.['stillView']);
  const checkpoint = CHECKPOINTS.find((each) => each === cell?.['stillCheckpoint']);
  return view === undefined || checkpoint === undefined ? null : { view, checkpoint };
}

function inWords({ view, checkpoint }: StillHere): string {
  return `${lowered(CHECKPOINT_LABELS[checkpoint])}, ${lowered(VIEW_LABELS[view])}`;
}
