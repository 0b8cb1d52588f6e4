import { useEffect, useMemo, useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { markedSwingOf } from '../../core/model/swing.ts';
import { reportFrom, type LessonReport, type Measured } from '../../core/report/lesson-report.ts';
import { ownGoals } from '../goals/state/goals.ts';
import { placing } from '../repeat/state/placing.ts';
import { useStore } from '../shell/state/store.ts';
import { measureElsewhere, type Source } from './measuring.ts';

/** What is shown of a swing, and the very swing that it was read from: marks may have moved on since. */
export interface SwingReport {
  readonly swing: BookSwing;
  readonly report: LessonReport;
}

interface Came {
  readonly of: { readonly swing: BookSwing; readonly then: BookSwing | null };
  readonly source: Source;
  readonly what: { readonly measured: Measured } | { readonly failed: unknown };
}

/**
 * What the open swing shows, against an earlier one or alone; with the coach's own placing errors. It follows the marks a
 * moment later, since it is made by a thread of its own: until a swing has been compared it is shown alone, if it was before.
 * null without a swing, and until a swing was read for the first time.
 *
 * @throws what measuring threw: a fault of ours.
 */
export function useReport(swing: BookSwing | null, then: BookSwing | null): SwingReport | null {
  const errors = useStore(placing, (state) => state.errors);
  const goals = useStore(ownGoals, (state) => state.goals);
  const [came, setCame] = useState<Came | null>(null);
  useEffect(() => {
    if (swing === null) return;
    const earlier = then === null ? null : markedSwingOf(then);
    const source = { now: markedSwingOf(swing), then: earlier, goals, placing: errors };
    const of = { swing, then };
    // Answers come in the order of the marks, so each is nearer to them than what is shown: none is dropped, or readings
    // would stand still for as long as a mark is dragged. One of another swing is not shown.
    measureElsewhere(source, setCame).then(
      (measured) => setCame({ of, source, what: { measured } }),
      (failed: unknown) => setCame({ of, source, what: { failed } }),
    );
  }, [swing, then, goals, errors]);
  const report = useMemo(
    () => (came !== null && 'measured' in came.what ? reportFrom(came.source, came.what.measured) : null),
    [came],
  );
  if (came === null || came.of.swing.swing.id !== swing?.swing.id) return null;
  // Beside the pictures of another swing the comparison would be wrong; alone it is only less.
  if (came.of.then !== null && came.of.then.swing.id !== then?.swing.id) return null;
  if ('failed' in came.what) throw came.what.failed;
  return report === null ? null : { swing: came.of.swing, report };
}
