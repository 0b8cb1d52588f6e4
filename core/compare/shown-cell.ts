import { comparisonsOfUse, readingsOfUse } from '../measure/doubts/of-use.ts';
import { readingsToShow } from '../measure/readings/pinned.ts';
import type { Comparison, MeasuredReading, Reading, ReadingKey } from '../model/reading.ts';
import { sameReading } from '../model/reading.ts';
import type { Checkpoint, View } from '../model/words.ts';

/** What was read of one swing, or of then and now. */
export interface ReadSwings {
  readonly now: readonly Reading[];
  /** Empty where nothing is compared. */
  readonly then: readonly Reading[];
  readonly comparisons: readonly Comparison[];
}

/** What stands at one checkpoint of one view, on the sheet and on stills alike. */
export interface ShownCell {
  readonly now: readonly MeasuredReading[];
  readonly then: readonly MeasuredReading[];
  /** Readings that both have and that are worth comparing. */
  readonly comparisons: readonly Comparison[];
  /** How many of each are worth showing and were not chosen. */
  readonly leftOut: { readonly now: number; readonly then: number };
}

/**
 * Decides what of a cell is shown: what is of use, and of that what the coach chose, one choice for then and now. A
 * reading that only one of the two has is still worth its number.
 */
export function shownCell(
  { now, then, comparisons }: ReadSwings,
  { view, checkpoint }: { readonly view: View; readonly checkpoint: Checkpoint },
  pins: readonly ReadingKey[],
): ShownCell {
  const here = (key: ReadingKey): boolean => key.view === view && key.checkpoint === checkpoint;
  const [mine, earlier] = [readingsOfUse(now).filter(here), readingsOfUse(then).filter(here)];
  const compared = comparisonsOfUse(comparisons).filter(here);
  const wanted = new Set<ReadingKey>(readingsToShow([...compared, ...earlier, ...mine], pins));
  const chosen = <Key extends ReadingKey>(all: readonly Key[]) => all.filter((each) => wanted.has(each));
  const shown = { now: chosen(mine), then: chosen(earlier), comparisons: chosen(compared) };
  const leftOut = { now: mine.length - shown.now.length, then: earlier.length - shown.then.length };
  return { ...shown, leftOut };
}

/** Those that stand in no comparison. */
export function withoutCompared(
  readings: readonly MeasuredReading[],
  comparisons: readonly Comparison[],
): readonly MeasuredReading[] {
  return readings.filter((reading) => !comparisons.some((each) => sameReading(each, reading)));
}
