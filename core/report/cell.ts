import { isOfUse } from '../measure/doubts/of-use.ts';
import { questionOf } from '../measure/doubts/plausible.ts';
import { isPinned, readingsToShow } from '../measure/readings/pinned.ts';
import { sameReading, type MeasuredReading, type Reading, type ReadingKey } from '../model/reading.ts';
import type { Checkpoint, View } from '../model/words.ts';
import type { LessonReport } from './lesson-report.ts';
import {
  shownReading,
  unreadReading,
  type ShownComparison,
  type ShownReading,
  type UnreadReading,
} from './shown-reading.ts';

/** What stands at one checkpoint of one view, on the sheet, on stills and on the bench alike. */
export interface ReportCell {
  readonly now: CellSide;
  readonly then: CellSide;
  /** What stands on the still of what both have and is worth comparing. */
  readonly comparisons: readonly ShownComparison[];
}

export interface CellSide {
  /** All that are of use, in the order of the catalogue. */
  readonly readings: readonly CellReading[];
  readonly missing: readonly UnreadOfCell[];
  /** Numbers that are of no use. */
  readonly idle: readonly UnreadOfCell[];
  /** Whether one of `idle` can hardly be right. */
  readonly isAsked: boolean;
}

export interface CellReading extends ShownReading {
  /** Against then; null where that cannot be compared or tells nothing. */
  readonly differs: ShownComparison | null;
  readonly pin: PinState;
  /** Whether it stands on the still and in the sheet's cell. */
  readonly isOnStill: boolean;
}

export interface UnreadOfCell extends UnreadReading {
  readonly isPinned: boolean;
}

/** Whether a reading was chosen for the still; a change comes along on the line of its value. */
export type PinState = 'pinned' | 'not pinned' | 'with its value';

export interface CellPlace {
  readonly view: View;
  readonly checkpoint: Checkpoint;
}

/**
 * Decides what of a cell is shown: what is of use, and of that what the coach chose, one choice for then and now. A
 * reading that only one of the two has is still worth its number. Where a number tells nothing in its own unit but can be
 * compared in another, it stands there in that.
 */
export function cellOf(report: LessonReport, { view, checkpoint }: CellPlace): ReportCell {
  const here = (key: ReadingKey): boolean => key.view === view && key.checkpoint === checkpoint;
  const compared = report.comparisons.filter(({ comparison }) => here(comparison));
  const pins = report.source.now.pins ?? [];
  const read = {
    now: ofUseIn(
      report.now.filter(here),
      compared.map(({ comparison }) => comparison.now),
    ),
    then: ofUseIn(
      report.then.filter(here),
      compared.map(({ comparison }) => comparison.then),
    ),
  };
  const chosen = readingsToShow([...read.then, ...read.now], pins);
  const side = (which: 'now' | 'then'): CellSide => {
    const all = report[which].filter(here);
    const unread = (readings: readonly Reading[]) =>
      readings.map((reading) => ({
        ...unreadReading(reading),
        isPinned: pins.some((pin) => sameReading(pin, reading)),
      }));
    const idle = all.filter((reading) => reading.state === 'measured').filter((reading) => !isOfUse(reading));
    return {
      readings: read[which].map((reading) => ({
        ...shownReading(reading, report.figures),
        differs: compared.find(({ comparison }) => sameReading(comparison, reading)) ?? null,
        pin: pinOf(reading, pins),
        isOnStill: chosen.some((each) => sameReading(each, reading)),
      })),
      missing: unread(all.filter((reading) => reading.state === 'missing')),
      idle: unread(idle),
      isAsked: idle.some((reading) => questionOf(reading) !== null),
    };
  };
  const isOnStill = ({ comparison }: ShownComparison) => chosen.some((each) => sameReading(each, comparison));
  return { now: side('now'), then: side('then'), comparisons: compared.filter(isOnStill) };
}

/** Those of use, each in its own unit; where only the compared one is of use, that one. */
function ofUseIn(all: readonly Reading[], compared: readonly MeasuredReading[]): readonly MeasuredReading[] {
  return all.flatMap((reading) => {
    if (reading.state === 'measured' && isOfUse(reading)) return [reading];
    return compared.find((each) => sameReading(each, reading)) ?? [];
  });
}

function pinOf(reading: ReadingKey, pins: readonly ReadingKey[]): PinState {
  if (pins.some((pin) => sameReading(pin, reading))) return 'pinned';
  return isPinned(reading, pins) ? 'with its value' : 'not pinned';
}
