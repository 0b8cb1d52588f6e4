import { hasYardstick } from '../measure/camera/calibration.ts';
import { labelOf } from '../measure/words/format.ts';
import { toleranceOf } from '../measure/pattern/pattern.ts';
import type { Pattern } from '../measure/pattern/pattern.ts';
import { smallestShown } from '../measure/uncertainty/levels.ts';
import { ASSUMED_PLACING } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { readClip } from '../measure/readings/read-swing.ts';
import { sameReading } from '../model/reading.ts';
import type { Comparison, MeasuredReading, Reading, ReadingKey } from '../model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../model/swing.ts';
import { VIEWS } from '../model/words.ts';
import { isOnTrial, judged } from './verdicts.ts';
import type { Unjudged } from './verdicts.ts';
import { warningsOf } from './warnings.ts';

export interface SwingComparison {
  /** Readings that both swings have, in the order of now's. */
  readonly comparisons: readonly Comparison[];
  /** Plain sentences for the coach and the sheet; empty when the two can be compared as they are. */
  readonly warnings: readonly string[];
  /** What of it belongs under a still: what the student must know to read a difference. */
  readonly stillWarnings: readonly string[];
}

/**
 * Compares two swings reading by reading, view by view. difference = now - then; its u holds both readings' own, less what
 * both have alike: on the same day the camera, which is taken to have stayed where it was, and on any what one coach always
 * does with one player. Lengths are compared in cm where both clips of the view have a yardstick, else as a part of the
 * same body length; pixels and times on screen are not compared. What is said of
 * them, and of which of them, is in verdicts.ts.
 */
export function compareSwings(
  then: MarkedSwing,
  now: MarkedSwing,
  pattern: Pattern,
  placing: PlacingErrors = ASSUMED_PLACING,
): SwingComparison {
  const unjudged: Unjudged[] = [];
  const incomparable: ReadingKey[] = [];
  for (const view of VIEWS) {
    const thenClip = then.clips.find((clip) => clip.view === view);
    const nowClip = now.clips.find((clip) => clip.view === view);
    if (thenClip === undefined || nowClip === undefined) continue;
    const sameDay = then.date === now.date;
    const [thenReadings, nowReadings] = readAlike(then, thenClip, now, nowClip, placing);
    for (const after of nowReadings) {
      const before = thenReadings.find((reading) => sameReading(reading, after));
      if (after.state !== 'measured' || before?.state !== 'measured') continue;
      if (before.unit !== after.unit || after.unit === 'px' || after.unit === 's on screen') incomparable.push(after);
      else unjudged.push(compareReadings(before, after, pattern, sameDay, now.pins ?? []));
    }
  }
  const comparisons = judged(unjudged);
  const all = warningsOf(then, now, comparisons, incomparable.map(labelOf));
  return {
    comparisons,
    warnings: all.map(({ words }) => words),
    stillWarnings: all.flatMap(({ onStills }) => onStills ?? []),
  };
}

/** Reads both clips in units that can be compared: cm when both have it for all, else parts of body lengths. */
function readAlike(
  then: MarkedSwing,
  thenClip: MarkedClip,
  now: MarkedSwing,
  nowClip: MarkedClip,
  placing: PlacingErrors,
): readonly [readonly Reading[], readonly Reading[]] {
  const lengths = hasYardstick(thenClip) && hasYardstick(nowClip) ? 'calibrated' : 'relative';
  return [readClip(then, thenClip, placing, lengths), readClip(now, nowClip, placing, lengths)];
}

/** Covariance of two readings of one thing: errors that both have alike cancel in their difference (JCGM 100:2008, 5.2.2). */
function sharedSquare(then: MeasuredReading, now: MeasuredReading, sameDay: boolean): number {
  return then.shared.reduce((sum, { name, by, part }) => {
    const other = by === 'player' || sameDay ? now.shared.find((each) => each.name === name) : undefined;
    return sum + part * (other?.part ?? 0);
  }, 0);
}

function compareReadings(
  then: MeasuredReading,
  now: MeasuredReading,
  pattern: Pattern,
  sameDay: boolean,
  pins: readonly ReadingKey[],
): Unjudged {
  const { id, aspect, view, checkpoint, unit } = now;
  const difference = now.value - then.value;
  const u = Math.sqrt(Math.max(0, then.u ** 2 + now.u ** 2 - 2 * sharedSquare(then, now, sameDay)));
  // The larger of two factors covers both: a part that is known from few repeats stays as unsure as it is.
  const coverage = Math.max(then.coverage, now.coverage);
  const tolerance = toleranceOf(pattern, id, aspect, unit);
  return {
    id,
    aspect,
    view,
    checkpoint,
    then,
    now,
    difference,
    unit,
    u,
    coverage,
    isOnTrial: isOnTrial(now, pins, pattern),
    tolerance,
    shows: smallestShown(u, coverage),
  };
}
