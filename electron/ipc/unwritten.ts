import { joinedWrite } from '../../core/model/edit.ts';
import type { EditWrite } from '../../core/model/edit.ts';
import type { Goals } from '../../core/model/goals.ts';
import type { Settings } from '../../core/model/settings.ts';
import type { RowName } from './contract.ts';
import { WriteRow } from './write-row.ts';

/** What was changed and is not written yet. */
export interface Unwritten {
  readonly edits: readonly EditWrite[];
  /** The latest of each; null where it is written. */
  readonly goals: Goals | null;
  readonly settings: Settings | null;
}

export interface Writers {
  readonly edit: (write: EditWrite) => void;
  readonly goals: (goals: Goals) => void;
  readonly settings: (settings: Settings) => Promise<void>;
}

/** The rows of all that the window changes without asking: edits, the goals, the settings. */
export class WriteRows {
  readonly edits: WriteRow<EditWrite>;
  readonly goals: WriteRow<Goals>;
  readonly settings: WriteRow<Settings>;

  constructor({ edit, goals, settings }: Writers) {
    this.edits = new WriteRow({ carryOut: edit, join: joinedWrite });
    // Each is written whole: the latest stands for all before it.
    const latest = <Whole>(_first: Whole, next: Whole): Whole => next;
    this.goals = new WriteRow({ carryOut: goals, join: latest });
    this.settings = new WriteRow({ carryOut: settings, join: latest });
  }

  /** Tries to write all that waits in one row. @throws what kept it from that. */
  async retry(name: RowName): Promise<void> {
    const trouble = await this[name].retry();
    if (trouble !== null) throw trouble;
  }

  /** The same for all rows; answers with the first trouble, or null. */
  async retryAll(): Promise<unknown> {
    const troubles = await Promise.all([this.edits.retry(), this.goals.retry(), this.settings.retry()]);
    return troubles.find((trouble) => trouble !== null) ?? null;
  }

  get unwritten(): Unwritten {
    return {
      edits: this.edits.waiting,
      goals: this.goals.waiting.at(-1) ?? null,
      settings: this.settings.waiting.at(-1) ?? null,
    };
  }

  /** How many changes that are. */
  get count(): number {
    return this.edits.waiting.length + this.goals.waiting.length + this.settings.waiting.length;
  }

  /** Lets go of all, where somebody said so or it is kept elsewhere. */
  dropAll(): void {
    for (const row of [this.edits, this.goals, this.settings]) row.drop();
  }
}
