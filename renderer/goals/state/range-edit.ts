import { changedRange } from '../../../core/measure/goals/goals-source.ts';
import type { Goals, WantedRange } from '../../../core/model/goals.ts';
import { withEntry, without } from './goals-edit.ts';

/** What an edit beside a reading needs of the window. */
export interface RangeHand {
  goals(): Goals;
  shippedGoals(): Goals;
  /** Puts a changed list to use and keeps it. */
  put(wanted: readonly WantedRange[]): void;
  /** Says that something is wanted now that was not before, and offers the way back. */
  offer(kind: 'changed' | 'added', takeBack: () => void): void;
  /** Says that there is no way back any more. */
  refuse(): void;
}

/** One stay at a range beside its reading. All that was changed in it is taken back together. */
export interface RangeEdit {
  change(part: Partial<WantedRange>): void;
  /** Offers to take back what was changed, if anything was. */
  end(): void;
}

/**
 * Begins at the range that holds, or at none: then the fresh one comes into the goals with its first change, so that
 * nothing stays behind where nothing was said. Entries are found as themselves, not by place: others may have come or gone.
 */
export function beginRangeEdit(held: WantedRange | null, fresh: WantedRange, hand: RangeHand): RangeEdit {
  let before = held;
  let now = held;

  function takeBack(was: WantedRange | null, last: WantedRange | null): void {
    const { wanted } = hand.goals();
    const index = wanted.findIndex((each) => each === last);
    if (index === -1) return hand.refuse();
    hand.put(was === null ? without(wanted, index) : withEntry(wanted, index, was));
  }

  return {
    change(part) {
      const { wanted } = hand.goals();
      const index = wanted.findIndex((each) => each === now);
      // Taken away meanwhile: what is typed is wanted all the same.
      const next = changedRange(now ?? fresh, part, hand.shippedGoals());
      hand.put(index === -1 ? [...wanted, next] : withEntry(wanted, index, next));
      now = next;
    },
    end() {
      if (now === before) return;
      const [was, last] = [before, now];
      before = now;
      hand.offer(was === null ? 'added' : 'changed', () => takeBack(was, last));
    },
  };
}
