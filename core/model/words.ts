import { say } from './say.ts';

/** The fixed words of a lesson, as ids that are stored and labels that are shown. See resources/vocabulary.md. */

export const VIEWS = ['down-the-line', 'face-on'] as const;
/** Where the camera stood. */
export type View = (typeof VIEWS)[number];

export const VIEW_LABELS: Readonly<Record<View, string>> = {
  'down-the-line': say`Down the line`,
  'face-on': say`Face on`,
};

export const HANDEDNESS = ['right', 'left'] as const;
/** Which way the player plays. Lead is left for a right-handed player. */
export type Handedness = (typeof HANDEDNESS)[number];

export const HANDEDNESS_LABELS: Readonly<Record<Handedness, string>> = {
  right: say`Right-handed`,
  left: say`Left-handed`,
};

/** In the order in which a swing passes through them. */
export const CHECKPOINTS = [
  'address',
  'takeaway',
  'lead-arm-level',
  'top',
  'lead-arm-level-down',
  'impact',
  'through',
  'finish',
] as const;
/** A named instant of a swing. */
export type Checkpoint = (typeof CHECKPOINTS)[number];

/** Checkpoints whose instants are read, in the order of a swing. */
export const TIMED_CHECKPOINTS = ['takeaway', 'top', 'impact'] as const satisfies readonly Checkpoint[];
export type TimedCheckpoint = (typeof TIMED_CHECKPOINTS)[number];

export const CHECKPOINT_LABELS: Readonly<Record<Checkpoint, string>> = {
  address: say`Address`,
  takeaway: say`Takeaway`,
  'lead-arm-level': say`Lead arm level`,
  top: say`Top`,
  'lead-arm-level-down': say`Lead arm level, downswing`,
  impact: say`Impact`,
  through: say`Through`,
  finish: say`Finish`,
};

/** Clubs offered in a list; a lesson may carry any other text. */
export const CLUBS = [
  say`Driver`,
  say`3 wood`,
  say`5 wood`,
  say`Hybrid`,
  say`4 iron`,
  say`5 iron`,
  say`6 iron`,
  say`7 iron`,
  say`8 iron`,
  say`9 iron`,
  say`Pitching wedge`,
  say`Sand wedge`,
  say`Putter`,
] as const;
