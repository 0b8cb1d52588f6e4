import type { ReadingId, ReadingKey } from '../../model/reading.ts';
import { CHECKPOINTS, VIEWS } from '../../model/words.ts';
import type { Checkpoint, View } from '../../model/words.ts';
import { CATALOGUE } from './catalogue.ts';
import type { Withdrawal } from './entry.ts';

/** Where a reading is made: in which views, at which checkpoints, and why no longer elsewhere. */

type Place = Pick<ReadingKey, 'id' | 'view' | 'checkpoint'>;

/** Why a reading that was once made there no longer is; null where it is made, or never was. */
export function whyWithdrawn({ id, view, checkpoint }: Place): string | null {
  const withdrawn: readonly Withdrawal[] = CATALOGUE[id].withdrawn ?? [];
  const found = withdrawn.find(({ views, checkpoints }) => views.includes(view) && checkpoints.includes(checkpoint));
  return found?.why ?? null;
}

export function isReadAt(place: Place): boolean {
  const { views, checkpoints } = CATALOGUE[place.id];
  return views.includes(place.view) && checkpoints.includes(place.checkpoint) && whyWithdrawn(place) === null;
}

/** The views in which it is made, at one of the checkpoints or more, in their order; empty for one that is withdrawn altogether. */
export function viewsOf(id: ReadingId, checkpoints: readonly Checkpoint[] = CHECKPOINTS): readonly View[] {
  return VIEWS.filter((view) => checkpoints.some((checkpoint) => isReadAt({ id, view, checkpoint })));
}

/** The checkpoints at which it is made, in one of the views or more, in the order of a swing. */
export function checkpointsOf(id: ReadingId, views: readonly View[] = VIEWS): readonly Checkpoint[] {
  return CHECKPOINTS.filter((checkpoint) => views.some((view) => isReadAt({ id, view, checkpoint })));
}

/** Whether it is made nowhere any more. */
export function isWithdrawn(id: ReadingId): boolean {
  return viewsOf(id).length === 0;
}
