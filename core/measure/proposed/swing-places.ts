import { say } from '../../model/say.ts';
import { CHECKPOINT_LABELS } from '../../model/words.ts';
import type { Checkpoint } from '../../model/words.ts';

/** Places in the swing that have errors of their own, in its order. `other`: frames without a name. */
export const SWING_PLACES = ['address', 'takeaway', 'top', 'impact', 'through', 'finish', 'other'] as const;
export type SwingPlace = (typeof SWING_PLACES)[number];

/**
 * Where in the swing a frame counts, by its name. With the lead arm level, going back and coming down, the body is turned much as
 * at the top, and the model errs alike (docs/proposals.md). Address and impact look alike, but their errors do not.
 */
export function swingPlaceOf(checkpoint: Checkpoint | null): SwingPlace {
  switch (checkpoint) {
    case null:
      return 'other';
    case 'lead-arm-level':
    case 'lead-arm-level-down':
      return 'top';
    default:
      return checkpoint;
  }
}

export const SWING_PLACE_LABELS: Readonly<Record<SwingPlace, string>> = {
  address: CHECKPOINT_LABELS.address,
  takeaway: CHECKPOINT_LABELS.takeaway,
  top: say`Top, lead arm level`,
  impact: CHECKPOINT_LABELS.impact,
  through: CHECKPOINT_LABELS.through,
  finish: CHECKPOINT_LABELS.finish,
  other: say`Frames without a name`,
};
