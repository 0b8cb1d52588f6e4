import type { RowName, Written } from '../../../electron/ipc/contract.ts';
import { settleAutosave } from './autosave.ts';
import type { SaveState } from './autosave.ts';
import { sayTrouble, tellTrouble } from './messages.ts';
import { createPlace } from './place.ts';
import { createSavedRow } from './saved-rows.ts';
import { createStore } from './store.ts';
import type { Store } from './store.ts';

/** What the program answers with: the whole, and what the coach must know of it. */
export interface Found<Whole> {
  readonly whole: Whole;
  readonly trouble: string | null;
}

export interface SavedWholeOptions<Whole> {
  readonly row: RowName;
  /** Until it is read. */
  readonly initial: Whole;
  readonly read: () => Promise<Found<Whole>>;
  readonly write: (whole: Whole) => Promise<Written>;
  /** What has to be done before those hear of it who look at `shown`. */
  readonly prepare?: (whole: Whole) => void;
}

/** What is read at the start, changed here and written whole each time: the goals, the settings. */
export interface SavedWhole<Whole> {
  readonly shown: Store<Whole>;
  readonly saving: Store<SaveState>;
  read(): Promise<void>;
  /** Puts a changed one to use at once, and keeps it. */
  change(change: (whole: Whole) => Whole): void;
  /** Takes what the program answers in the place of all that was changed so far, written or not; null: nothing. */
  replace(ask: () => Promise<Found<Whole> | null>): Promise<boolean>;
  /** Settles when all is written. @throws AppError `cancelled` where it cannot be, which has been told then. */
  settle(): Promise<void>;
}

export function createSavedWhole<Whole>(options: SavedWholeOptions<Whole>): SavedWhole<Whole> {
  const { row, initial, write, prepare } = options;
  const shown = createStore<Whole>(initial);
  const saving = createStore<SaveState>('saved');
  const place = createPlace();
  const autosave = createSavedRow(row, {
    report: (state) => saving.update(() => state),
    // What the program will never take is given up, and what it has is shown.
    refused: (error) => {
      tellTrouble(error);
      read().catch(tellTrouble);
    },
  });

  function putToUse(whole: Whole): void {
    prepare?.(whole);
    shown.update(() => whole);
  }

  function take({ whole, trouble }: Found<Whole>): void {
    putToUse(whole);
    if (trouble !== null) sayTrouble(trouble);
  }

  async function read(): Promise<void> {
    await place.fill(options.read, take);
  }

  return {
    shown,
    saving,
    read,
    change(change) {
      place.leave();
      const whole = change(shown.get());
      putToUse(whole);
      autosave.put(() => write(whole));
    },
    async replace(ask) {
      await autosave.settled();
      let isReplaced = false;
      await place.fill(ask, (found) => {
        if (found === null) return;
        isReplaced = true;
        take(found);
      });
      if (isReplaced) autosave.settledOtherwise();
      return isReplaced;
    },
    settle: () => settleAutosave(autosave),
  };
}
