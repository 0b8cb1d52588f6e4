import { useMemo } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import type { Comparison, Reading } from '../../core/model/reading.ts';
import { markedSwingOf } from '../../core/model/swing.ts';
import { compareSwings } from '../../core/compare/compare-swings.ts';
import { figuresOf } from '../../core/measure/words/figures.ts';
import type { Figures } from '../../core/measure/words/figures.ts';
import { comparisonsOfUse, readingsOfUse } from '../../core/measure/doubts/of-use.ts';
import { questionsAbout } from '../../core/measure/words/question-words.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import { placing } from '../repeat/state/placing.ts';
import { ownPattern } from '../pattern/state/pattern.ts';
import { useStore } from '../shell/state/store.ts';

/** All that can be read of a swing and, with an earlier one, all that can be compared; with the coach's own placing errors. */
export interface Results {
  readonly now: readonly Reading[];
  readonly then: readonly Reading[];
  /** Those that are worth showing. */
  readonly comparisons: readonly Comparison[];
  /** How their numbers are written. */
  readonly figures: Figures;
  readonly warnings: readonly string[];
  /** What the marks of both contradict, to be asked. */
  readonly questions: readonly string[];
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
  const comparisons = useMemo(() => comparisonsOfUse(compared?.comparisons ?? []), [compared]);
  const figures = useMemo(
    () => figuresOf([readingsOfUse(earlier), readingsOfUse(now)], comparisons),
    [now, earlier, comparisons],
  );
  const questions = useMemo(
    () => [
      ...(swing === null ? [] : questionsAbout(markedSwingOf(swing), errors)),
      ...(then === null ? [] : questionsAbout(markedSwingOf(then), errors).map((question) => `Then, ${question}`)),
    ],
    [swing, then, errors],
  );
  return { now, then: earlier, comparisons, figures, warnings: compared?.warnings ?? [], questions };
}
