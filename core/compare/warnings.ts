import { lowered, say } from '../model/say.ts';
import { plumbOf } from '../measure/camera/calibration.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { isolated } from '../model/isolated.ts';
import type { Comparison } from '../model/reading.ts';
import type { MarkedSwing } from '../model/swing.ts';
import { HANDEDNESS_LABELS, VIEW_LABELS } from '../model/words.ts';
import type { View } from '../model/words.ts';

/**
 * Damsted et al., Int J Sports Phys Ther 2015: 95 % prediction range of knee and hip angles in video of 18 runners, two
 * raters: 9-14 degrees (knee) and 9-11 degrees (hip) between days.
 */
const BETWEEN_DAYS = say`Angles from two filming days can differ by 9 to 14° from set-up alone (a published trial on runners). Mark a plumb and ground marks on both clips, and trust small changes of angle little.`;

/** What makes two swings hard to compare. */
export interface Warning {
  /** For the coach: what it is, and what to do about it. */
  readonly words: string;
  /** For the student, in short, where it bears on what a difference means. */
  readonly onStills: string | null;
}

/** `incomparable`: labels of readings left out. */
export function warningsOf(
  then: MarkedSwing,
  now: MarkedSwing,
  comparisons: readonly Comparison[],
  incomparable: readonly string[],
): readonly Warning[] {
  const warnings: Warning[] = [];
  const warn = (words: string, onStills: string | null): void => void warnings.push({ words, onStills });
  const views = (swing: MarkedSwing) => swing.clips.map((clip) => lowered(VIEW_LABELS[clip.view])).join(say` and `);
  if (!now.clips.some((clip) => then.clips.some((other) => other.view === clip.view)))
    warn(
      say`The two swings were filmed from different views (then ${views(then) || say`none`}, now ${views(now) || say`none`}), so nothing can be compared.`,
      null,
    );
  // ISO 8601 days sort as text.
  if (then.date > now.date)
    warn(
      say`Then (${dayInWords(then.date)}) is the later day and now (${dayInWords(now.date)}) the earlier: are they the wrong way round?`,
      null,
    );
  const sameWords = (one: string, other: string) =>
    isolated(one).trim().toLowerCase() === isolated(other).trim().toLowerCase();
  if (!sameWords(then.club, now.club))
    warn(
      say`Different clubs (then ${isolated(then.club)}, now ${isolated(now.club)}): posture and swing differ with the club, so a change may be the club and not the player.`,
      say`Different clubs (then ${isolated(then.club)}, now ${isolated(now.club)}): a change may be the club and not the player.`,
    );
  if (then.handedness !== now.handedness)
    warn(
      say`Different handedness (then ${lowered(HANDEDNESS_LABELS[then.handedness])}, now ${lowered(HANDEDNESS_LABELS[now.handedness])}): check the lesson before you trust any difference.`,
      say`Then and now were played with different hands.`,
    );
  if (
    then.date !== now.date &&
    comparisons.some(({ unit, view }) => unit === 'deg' && !(isSetUpTold(then, view) && isSetUpTold(now, view)))
  )
    warn(BETWEEN_DAYS, say`Small changes of angle between two days can come from the camera alone.`);
  const left = [...new Set(incomparable)];
  if (left.length > 0)
    warn(
      say`Left out, because the two are not in the same unit or only on the scale of the screen: ${left.join(', ')}. Mark a known length, or the points that give a body length at address, on both clips; for times set the real rate.`,
      null,
    );
  return warnings;
}

/** Whether both the vertical and the ground are marked. */
function isSetUpTold(swing: MarkedSwing, view: View): boolean {
  const clip = swing.clips.find((candidate) => candidate.view === view);
  if (clip === undefined || plumbOf(clip, 1, 1) === null) return false;
  return clip.marks.some(({ shapes }) => shapes.some(({ kind }) => kind === 'ground'));
}
