import { say } from '../../model/say.ts';

/** The usual cautions of the trade, each where it is needed and all of them in Help. Local rules and the law come first. */

/** Where pictures come in. */
export const CONSENT = say`Film only with consent; for a child, that of the child and of a parent or guardian. Keep clips safe, and delete them when asked.`;

export const DISTANCE = say`Keep everyone well away from a swinging club, children most of all. Your facility’s rules and local law come first.`;

/** Where pictures leave the program. */
export const SENDING = say`Stills show the student’s face. Send them only to people the student agreed to; a child’s only with a parent or guardian’s consent.`;

/** Before anything goes out of the lesson of a student who is a child. */
export const CHILD = say`The student is a child. Before anything is saved or sent, the child and a parent or guardian must agree. Your facility’s rules and local law come first.`;

/** Wherever a posture is asked for. */
export const BODIES = say`Bodies differ. Never force a position; a goal is not a diagnosis.`;

export const PAIN = say`Baybook measures, it does not diagnose. Pain in the back, a knee or anywhere: stop, and have a doctor or physiotherapist look at it.`;
