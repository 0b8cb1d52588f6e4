import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../../../core/measure/uncertainty/placing.ts';
import { placingErrorsOfChecks } from '../../../core/measure/repeat/day-spread.ts';
import type { NewRepeatCheck, RepeatCheck } from '../../../core/model/repeat-check.ts';
import { ask } from '../../api.ts';
import { settleWrites } from '../../swing/state/edit-actions.ts';
import { createPlace } from '../../shell/state/place.ts';
import { createStore } from '../../shell/state/store.ts';

/** The repeat checks that the book keeps, the newest first, and the placing errors that all readings count with. */
export interface Placing {
  readonly checks: readonly RepeatCheck[];
  readonly errors: PlacingErrors;
}

export const placing = createStore<Placing>({ checks: [], errors: ASSUMED_PLACING });

/** The checks that readings count with. */
const place = createPlace();

/** Reads the checks of the book; the errors are worked out from all their placings. */
export async function readPlacing(): Promise<void> {
  await place.fill(
    () => ask('repeat/list', null),
    (checks) => {
      const errors = checks.length === 0 ? ASSUMED_PLACING : placingErrorsOfChecks(checks);
      placing.update(() => ({ checks, errors }));
    },
  );
}

/** Keeps a finished check: readings count with it from now on. */
export async function keepCheck(check: NewRepeatCheck): Promise<void> {
  // The book takes the shapes beside the points from what is stored.
  await settleWrites();
  await ask('repeat/add', check);
  await readPlacing();
}

/** Takes a check and its numbers away for good. */
export async function removeCheck(id: string): Promise<void> {
  await ask('repeat/remove', { id });
  await readPlacing();
}
