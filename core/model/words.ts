/** The fixed words of a lesson, as ids that are stored and labels that are shown. See resources/vocabulary.md. */

export const VIEWS = ['down-the-line', 'face-on'] as const;
/** Where the camera stood. */
export type View = (typeof VIEWS)[number];

export const VIEW_LABELS: Readonly<Record<View, string>> = {
  'down-the-line': 'Down the line',
  'face-on': 'Face on',
};

export const HANDEDNESS = ['right', 'left'] as const;
/** Which way the player plays. Lead is left for a right-handed player. */
export type Handedness = (typeof HANDEDNESS)[number];

export const HANDEDNESS_LABELS: Readonly<Record<Handedness, string>> = {
  right: 'Right-handed',
  left: 'Left-handed',
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
  address: 'Address',
  takeaway: 'Takeaway',
  'lead-arm-level': 'Lead arm level',
  top: 'Top',
  'lead-arm-level-down': 'Lead arm level, downswing',
  impact: 'Impact',
  through: 'Through',
  finish: 'Finish',
};

/** Clubs offered in a list; a lesson may carry any other text. */
export const CLUBS = [
  'Driver',
  '3 wood',
  '5 wood',
  'Hybrid',
  '4 iron',
  '5 iron',
  '6 iron',
  '7 iron',
  '8 iron',
  '9 iron',
  'Pitching wedge',
  'Sand wedge',
  'Putter',
] as const;
