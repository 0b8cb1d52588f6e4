import { useMemo } from 'react';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import { smallestChangeWords } from '../../../core/report/shown-reading.ts';
import { placing } from '../../repeat/state/placing.ts';
import { useStore } from '../../shell/state/store.ts';

/** What change of a reading would show between two lessons, by the coach's own click errors; null for what is never compared. */
export function useSmallestChange(reading: MeasuredReading): string | null {
  const errors = useStore(placing, (state) => state.errors);
  return useMemo(() => smallestChangeWords(reading, errors), [reading, errors]);
}
