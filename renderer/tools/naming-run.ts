import type { NamingChoice, RepeatShowing } from '../../core/model/repeat-check.ts';

/** Checkpoints that are being named again: each showing is a clip without a name in sight, in which one frame is chosen. */
export interface NamingRun {
  readonly choices: readonly NamingChoice[];
  readonly showings: readonly RepeatShowing[];
  /** The frame each showing begins at. */
  readonly starts: readonly number[];
  /** Which showing it is at; as many as there are showings once all is named. */
  readonly at: number;
  /** The frame that is in sight, of the clip that is shown. */
  readonly index: number;
  /** The frames that were chosen, one for each showing that is done. */
  readonly named: readonly number[];
}

export function beginNaming(
  choices: readonly NamingChoice[],
  showings: readonly RepeatShowing[],
  starts: readonly number[],
): NamingRun {
  return { choices, showings, starts, at: 0, index: starts[0] ?? 0, named: [] };
}

/** What is to be named now, or null once all is. */
export function namingShown({ choices, showings, at }: NamingRun): NamingChoice | null {
  const showing = showings[at];
  return showing === undefined ? null : (choices[showing.choice] ?? null);
}

/** Other frames on, as far as the clip goes. */
export function stepFrames(run: NamingRun, by: number, frameCount: number): NamingRun {
  return { ...run, index: Math.min(frameCount - 1, Math.max(0, run.index + by)) };
}

/** The frame in sight is the one; the next showing begins. */
export function nameFrame(run: NamingRun): NamingRun {
  const at = run.at + 1;
  return { ...run, at, index: run.starts[at] ?? run.index, named: [...run.named, run.index] };
}

/** To the showing before, with the frame that was chosen there in sight. */
export function nameBefore(run: NamingRun): NamingRun {
  if (run.at === 0) return run;
  return { ...run, at: run.at - 1, index: run.named.at(-1) ?? run.index, named: run.named.slice(0, -1) };
}

/** The frames that were chosen for a choice, by round; empty while there are none. */
export function namedInRounds({ showings, named }: NamingRun, choice: number): readonly number[] {
  return showings
    .flatMap((showing, at) => {
      const index = named[at];
      return showing.choice === choice && index !== undefined ? [{ index, round: showing.round }] : [];
    })
    .sort((a, b) => a.round - b.round)
    .map(({ index }) => index);
}
