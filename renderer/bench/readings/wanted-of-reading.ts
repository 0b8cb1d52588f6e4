import { judgeWanted, missSide } from '../../../core/measure/goals/judge-wanted.ts';
import type { Judgement } from '../../../core/measure/goals/judge-wanted.ts';
import { isWordsOnly, wantedOf } from '../../../core/measure/goals/goals.ts';
import type { Goals, WantedRange } from '../../../core/model/goals.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';

/** What is wanted of a reading, and how it stands to that. */
export interface Wanted {
  readonly range: WantedRange;
  /** null for words alone, and for limits in another unit than the reading's. */
  readonly judgement: Judgement | null;
  /** Whether it has limits that the reading cannot be held against. */
  readonly inOtherUnit: boolean;
  /** What the miss does to the strike, in the coach's words; null where nothing is missed, or nothing said. */
  readonly miss: { readonly side: 'low' | 'high'; readonly words: string } | null;
}

/** null where the goals say nothing of a reading with this club. */
export function wantedOfReading(reading: MeasuredReading, goals: Goals, club: string): Wanted | null {
  const range = wantedOf(goals, reading, club);
  if (range === null) return null;
  const judgement = isWordsOnly(range) ? null : judgeWanted(reading, range);
  const side = missSide(reading, range);
  const words = side === null ? '' : range.miss[side];
  return {
    ...{ range, judgement },
    inOtherUnit: judgement === null && !isWordsOnly(range),
    miss: side === null || words === '' ? null : { side, words },
  };
}
