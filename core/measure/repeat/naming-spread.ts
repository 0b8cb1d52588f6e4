import { say } from '../../model/say.ts';
import type { RepeatNaming } from '../../model/repeat-check.ts';
import { CHECKPOINT_LABELS, TIMED_CHECKPOINTS } from '../../model/words.ts';
import type { TimedCheckpoint } from '../../model/words.ts';
import { ASSUMED_NAMING } from '../readings/naming.ts';
import type { NamingErrors } from '../readings/naming.ts';
import { COVERAGE_FACTOR } from '../uncertainty/estimate.ts';
import { formatAbout } from '../words/format.ts';
import { meanOf, withinSubject } from './within-subject.ts';
import type { Spread } from './within-subject.ts';

/** How far apart the frames lie that a coach gives one name. */
export interface NamingSpread extends Spread {
  readonly checkpoint: TimedCheckpoint;
  /** What a frame of the clips lasts, on the average, seconds of the swing. */
  readonly frameSeconds: number;
}

/** `sd` in seconds of the swing, in the order of a swing; a checkpoint that was named once everywhere is left out. */
export function namingSpreads(namings: readonly RepeatNaming[]): readonly NamingSpread[] {
  return TIMED_CHECKPOINTS.flatMap((checkpoint) => {
    const own = namings.filter((each) => each.checkpoint === checkpoint);
    const spread = withinSubject(own.map(({ after }) => after));
    if (spread === null) return [];
    return [{ checkpoint, ...spread, frameSeconds: meanOf(own.map(({ frameSeconds }) => frameSeconds)) }];
  });
}

/** What the assumed spread is worth beside a measured one, in degrees of freedom: two namings of two swings weigh as much. Ours. */
const WORTH_OF_ASSUMED = 4;

/**
 * What readings of time count with from then on: the measured variance, steadied by the assumed one, each by its degrees of
 * freedom. Few namings of the same frame are no proof that it is always the same. null where nothing was named again.
 */
export function namingErrorsOf(namings: readonly RepeatNaming[]): NamingErrors | null {
  const spreads = namingSpreads(namings);
  if (spreads.length === 0) return null;
  const known: Partial<Record<TimedCheckpoint, number>> = {};
  const freedom: Partial<Record<TimedCheckpoint, number>> = {};
  for (const { checkpoint, sd, freedom: own, frameSeconds } of spreads) {
    const { seconds, frames } = ASSUMED_NAMING[checkpoint];
    const assumed = Math.hypot(seconds, frames * frameSeconds);
    freedom[checkpoint] = WORTH_OF_ASSUMED + own;
    known[checkpoint] = Math.sqrt((WORTH_OF_ASSUMED * assumed ** 2 + own * sd ** 2) / (WORTH_OF_ASSUMED + own));
  }
  return { known, freedom };
}

/** How far apart one name falls, one sentence a checkpoint; empty where nothing was named again. */
export function namingsInWords(namings: readonly RepeatNaming[]): readonly string[] {
  return namingSpreads(namings).map(({ checkpoint, sd, freedom, frameSeconds }) => {
    const name = CHECKPOINT_LABELS[checkpoint];
    const rate = say`${String(Math.round(1 / frameSeconds))} a second`;
    if (sd === 0) return say`${name}: the same frame each time, at ${rate}.`;
    const reach = 1000 * COVERAGE_FACTOR * sd;
    const within = formatAbout(reach, reach / Math.sqrt(2 * freedom), 'ms');
    return say`${name}: of 20 namings, 19 fall within ${within} of their middle, at ${rate}.`;
  });
}
