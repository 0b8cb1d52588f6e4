import { learnErrors } from '../../../core/measure/proposed/learn-errors.ts';
import type { LearntError } from '../../../core/measure/proposed/learn-errors.ts';
import type { KeptCorrections } from '../../../core/model/proposed-points.ts';
import { ask } from '../../api.ts';
import { forgetLearntPoints } from '../../bench/state/proposed-points.ts';
import { createPlace } from '../../shell/state/place.ts';
import { createStore } from '../../shell/state/store.ts';
import { settleWrites } from '../../swing/state/edit-actions.ts';

/** Where proposed points were put elsewhere, and what is learnt from it. */
export interface Learning extends KeptCorrections {
  readonly errors: readonly LearntError[];
}

/** null: not read yet. */
export const learning = createStore<{ readonly read: Learning | null }>({ read: null });

const place = createPlace();

/** Reads the corrections of the book; the errors are worked out from all of them. */
export async function readCorrections(): Promise<void> {
  await place.fill(
    async () => {
      // What a hand has just put elsewhere counts as well.
      await settleWrites();
      return ask('corrections/list', null);
    },
    (kept) => learning.update(() => ({ read: { ...kept, errors: learnErrors(kept.corrections) } })),
  );
}

/** What was corrected until now no longer counts; the marks stay. */
export async function forgetCorrections(): Promise<void> {
  await settleWrites();
  await ask('corrections/forget', null);
  forgetLearntPoints();
  await readCorrections();
}
