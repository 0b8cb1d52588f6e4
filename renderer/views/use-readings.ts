import { useMemo } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import type { Comparison, Reading } from '../../core/model/reading.ts';
import { markedSwingOf } from '../../core/model/swing.ts';
import { compareSwings } from '../../core/compare/compare-swings.ts';
import { readSwing } from '../../core/measure/read-swing.ts';
import { placing } from '../state/placing.ts';
import { ownPattern } from '../state/pattern.ts';
import { useStore } from '../state/store.ts';

/** All that can be read of a swing and, with an earlier one, all that can be compared; with the coach's own placing errors. */
export interface Results {
  readonly now: readonly Reading[];
  readonly then: readonly Reading[];
  readonly comparisons: readonly Comparison[];
  readonly warnings: readonly string[];
}

export function useReadings(swing: BookSwing | null, then: BookSwing | null): Results {
  const errors = useStore(placing, (state) => state.errors);
  const pattern = useStore(ownPattern, (state) => state.pattern);
  const now = useMemo(() => (swing === null ? [] : readSwing(markedSwingOf(swing), errors)), [swing, errors]);
  const earlier = useMemo(() => (then === null ? [] : readSwing(markedSwingOf(then), errors)), [then, errors]);
  const compared = useMemo(
    () =>
      then === null || swing === null
        ? null
        : compareSwings(markedSwingOf(then), markedSwingOf(swing), pattern, errors),
    [swing, then, pattern, errors],
  );
  return { now, then: earlier, comparisons: compared?.comparisons ?? [], warnings: compared?.warnings ?? [] };
}
