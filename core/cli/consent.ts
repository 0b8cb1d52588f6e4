import { CHILD } from '../measure/words/cautions.ts';
import type { SwingFile } from '../model/swing-file.ts';

/** Reminds whoever makes something of a child's swing; a file cannot know of a consent, so each time. */
export function remindOfConsent(swings: readonly (Pick<SwingFile, 'student'> | null)[], say: (line: string) => void) {
  if (swings.some((swing) => swing?.student.child === true)) say(CHILD);
}
