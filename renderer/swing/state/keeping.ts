import { isolated } from '../../../core/model/isolated.ts';
import { say } from '../../../core/model/say.ts';
import type { Clip, PartKept } from '../../../core/model/book.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { moveToBin } from '../../shell/state/bin.ts';
import { runJob, wasCancelled } from '../../shell/state/jobs.ts';
import { attempt, tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { takeOverKept } from './settling.ts';

const underWay = new Map<string, Promise<PartKept | null>>();

/**
 * Has the part of a clip that is coming taken out of its file, while the coach works on it. Null where that did not come
 * about, which is told here. A coach who cancels takes the clip out of the swing again: it lies in the bin, with its marks.
 */
export function keepPart({ id, kept }: Pick<Clip, 'id' | 'kept'>): Promise<PartKept | null> {
  const keeping = underWay.get(id) ?? keep(id, kept?.first ?? 0).finally(() => underWay.delete(id));
  underWay.set(id, keeping);
  return keeping;
}

async function keep(id: string, first: number): Promise<PartKept | null> {
  let job = '';
  try {
    const start = (jobId: string): Promise<PartKept> => {
      job = jobId;
      return ask('clip/keep', { jobId, id, first });
    };
    const kept = await runJob(say`Taking the swing out of the clip`, start, true);
    await takeOverKept(id, kept);
    if (kept.whole) tellWhole(kept.id);
    return kept;
  } catch (error) {
    if (wasCancelled(job)) await attempt(() => moveToBin('clip', id));
    else tellTrouble(error);
    return null;
  }
}

function tellWhole(clipId: string): void {
  const { swing, then } = app.get();
  const clip = [...(swing?.clips ?? []), ...(then?.clips ?? [])].find(({ id }) => id === clipId);
  if (clip !== undefined)
    tellDone(
      say`${isolated(clip.originalName)} could not be cut, so the book took all of it. What you named and marked stayed on its picture.`,
    );
}
