import type { MeasuredReading } from '../../model/reading.ts';
import type { WantedRange } from './goals.ts';

/** How a reading stands to the range that the goals want. */
export type Judgement = 'on target' | 'too low' | 'too high' | 'too close to call';

/**
 * Holds the whole 95 % interval against the range, limits included: `on target` when all of it lies in the range, `too
 * low` or `too high` when all of it lies beyond a limit, else `too close to call`. A range of one value (square, 90 degrees) can never be shown to be met
 * exactly, only to be missed. null when a limit is in another unit than the reading and cannot be held against it; a
 * limit of 0 holds in every unit.
 */
export function judgeWanted(
  { interval, unit }: Pick<MeasuredReading, 'interval' | 'unit'>,
  wanted: Pick<WantedRange, 'from' | 'to' | 'unit'>,
): Judgement | null {
  const { from, to } = wanted;
  const holdsHere = (limit: number | null): boolean => limit === null || limit === 0 || wanted.unit === unit;
  if (!holdsHere(from) || !holdsHere(to)) return null;
  const [low, high] = interval;
  const [least, most] = [from ?? -Infinity, to ?? Infinity];
  if (low >= least && high <= most) return 'on target';
  if (high < least) return 'too low';
  return low > most ? 'too high' : 'too close to call';
}

/**
 * On which side a reading misses its wanted range: `low` when all of its 95 % interval lies below `from`, `high` when all
 * of it lies above `to`; null when it does not surely miss. As `judgeWanted`, it is then `too low` or `too high`.
 */
export function missSide(
  reading: Pick<MeasuredReading, 'interval' | 'unit'>,
  wanted: Pick<WantedRange, 'from' | 'to' | 'unit'>,
): 'low' | 'high' | null {
  const judgement = judgeWanted(reading, wanted);
  if (judgement === 'too low') return 'low';
  return judgement === 'too high' ? 'high' : null;
}
