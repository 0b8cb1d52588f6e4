import { useMemo } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { markedSwingOf } from '../../core/model/swing.ts';
import { reportOf, type LessonReport } from '../../core/report/lesson-report.ts';
import { placing } from '../repeat/state/placing.ts';
import { ownPattern } from '../pattern/state/pattern.ts';
import { useStore } from '../shell/state/store.ts';

/** What the open swing shows, against an earlier one or alone; with the coach's own placing errors. null without a swing. */
export function useReport(swing: BookSwing | null, then: BookSwing | null): LessonReport | null {
  const errors = useStore(placing, (state) => state.errors);
  const pattern = useStore(ownPattern, (state) => state.pattern);
  return useMemo(() => {
    if (swing === null) return null;
    const earlier = then === null ? null : markedSwingOf(then);
    return reportOf({ now: markedSwingOf(swing), then: earlier, pattern, placing: errors });
  }, [swing, then, pattern, errors]);
}
