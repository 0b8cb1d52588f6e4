import { hasKnownLength } from '../measure/camera/calibration.ts';
import { labelOf } from '../measure/words/format.ts';
import type { Goals } from '../measure/goals/goals.ts';
import { ASSUMED_SET_UP } from '../measure/camera/set-up-errors.ts';
import { isOfUse } from '../measure/doubts/of-use.ts';
import { ASSUMED_PLACING } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { readClip } from '../measure/readings/read-swing.ts';
import { sameReading } from '../model/reading.ts';
import type { Comparison, MeasuredReading, Reading, ReadingKey } from '../model/reading.ts';
import type { MarkedClip, MarkedSwing } from '../model/swing.ts';
import { VIEWS } from '../model/words.ts';
import { compareLessons, compareSingles } from './lesson-comparison.ts';
import type { Lesson, LessonPair } from './lesson-comparison.ts';
import { scatterIn } from './player-scatter.ts';
import { judged } from './verdicts.ts';
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
 * does with one player. Two days are two lessons: each counts with the mean of its swings, and with how far a player's swings lie
 * apart. Of one day two swings are compared as they are. Lengths are compared in cm where both clips of the view have a known length, else as a part of the
 * same body length; pixels and times on screen are not compared. What is said of
 * them, and of which of them, is in verdicts.ts.
 */
export function compareSwings(
  then: MarkedSwing,
  now: MarkedSwing,
  goals: Goals,
  placing: PlacingErrors = ASSUMED_PLACING,
): SwingComparison {
  const singles: Unjudged[] = [];
  const lessons: LessonPair[] = [];
  const incomparable: ReadingKey[] = [];
  for (const view of VIEWS) {
    const thenClip = then.clips.find((clip) => clip.view === view);
    const nowClip = now.clips.find((clip) => clip.view === view);
    if (thenClip === undefined || nowClip === undefined) continue;
    const sameDay = then.date === now.date;
    const lengths = hasKnownLength(thenClip) && hasKnownLength(nowClip) ? 'calibrated' : 'relative';
    const [thenReadings, nowReadings] = [
      readClip(then, thenClip, placing, lengths),
      readClip(now, nowClip, placing, lengths),
    ];
    const [thenOthers, nowOthers] = [then, now].map((swing) =>
      sameDay ? [] : othersOf(swing, view, placing, lengths),
    );
    for (const after of nowReadings) {
      const before = thenReadings.find((reading) => sameReading(reading, after));
      if (after.state !== 'measured' || before?.state !== 'measured') continue;
      if (before.unit !== after.unit || after.unit === 'px' || after.unit === 's on screen') incomparable.push(after);
      else {
        const judging = { goals, pins: now.pins ?? [] };
        const scatter = scatterIn(after, (placing.setUp ?? ASSUMED_SET_UP).scatter);
        if (sameDay) singles.push(compareSingles(before, after, sharedSquare(before, after), judging));
        else
          lessons.push({
            then: lessonOf(then, before, thenOthers ?? []),
            now: lessonOf(now, after, nowOthers ?? []),
            judging: { ...judging, scatter },
          });
      }
    }
  }
  const comparisons = judged([...singles, ...compareLessons(lessons)]);
  const all = warningsOf(then, now, comparisons, incomparable.map(labelOf));
  return {
    comparisons,
    warnings: all.map(({ words }) => words),
    stillWarnings: all.flatMap(({ onStills }) => onStills ?? []),
  };
}

interface Other {
  readonly label: string;
  readonly readings: readonly Reading[];
}

/** What the other swings of a lesson say, as far as they were filmed from that view. */
function othersOf(
  { handedness, besides = [] }: MarkedSwing,
  view: MarkedClip['view'],
  placing: PlacingErrors,
  lengths: 'calibrated' | 'relative',
): readonly Other[] {
  return besides.flatMap(({ label, clips }) => {
    const clip = clips.find((each) => each.view === view);
    return clip === undefined ? [] : [{ label, readings: readClip({ handedness, clips }, clip, placing, lengths) }];
  });
}

/** A reading of the open swing with those of its lesson that are of use and in the same unit. */
function lessonOf({ label = '' }: MarkedSwing, reading: MeasuredReading, others: readonly Other[]): Lesson {
  const found = others.flatMap((other) => {
    const same = other.readings.find((each) => sameReading(each, reading));
    const counts = same?.state === 'measured' && same.unit === reading.unit && isOfUse(same);
    return counts ? [{ label: other.label, reading: same }] : [];
  });
  return {
    readings: [reading, ...found.map((each) => each.reading)],
    labels: [label, ...found.map((each) => each.label)],
  };
}

/** Covariance of two readings of one day: errors that both have alike cancel in their difference (JCGM 100:2008, 5.2.2). */
function sharedSquare(then: MeasuredReading, now: MeasuredReading): number {
  return then.shared.reduce((sum, { name, part }) => {
    const other = now.shared.find((each) => each.name === name);
    return sum + part * (other?.part ?? 0);
  }, 0);
}
