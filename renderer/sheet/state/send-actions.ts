import { say } from '../../../core/model/say.ts';
import type { StillsOrder } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { mayGoOut } from '../../swing/state/consent.ts';
import { settleWrites } from '../../swing/state/edit-actions.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';

/** Saves stills into a folder that the coach is asked for, and offers to show it. */
export async function saveStills(order: Omit<StillsOrder, 'jobId' | 'folder'>): Promise<void> {
  if (!(await mayGoOut())) return;
  await settleWrites();
  const saved = await runJob(say`Saving the stills`, (jobId) => ask('stills/save', { ...order, jobId, folder: null }));
  if (saved === null) return;
  const { folder, files } = saved;
  const count = files.length === 1 ? say`1 still` : say`${String(files.length)} stills`;
  tellDone(say`Saved ${count} in ${folder}, ready to send.`, {
    label: say`Show folder`,
    run: () => {
      ask('stills/show-folder', { folder }).catch(tellTrouble);
    },
  });
}

/** Writes the swing file where the coach says. */
export async function exportSwing(id: string): Promise<void> {
  if (!(await mayGoOut())) return;
  await settleWrites();
  const written = await ask('swing/export', { id });
  if (written !== null) tellDone(say`Wrote the swing to ${written.path}`);
}
