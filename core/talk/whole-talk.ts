import type { LessonPage } from '../model/lesson-page.ts';
import { TALK_LIMITS, type Talk, type TalkClosing, type TalkEdit, type TalkTake } from '../model/talk.ts';
import { editedBy } from './talk-edits.ts';

/** Holds the number of a take of which nothing is left. */
const EMPTY_TAKE: TalkTake = { length: 0, sound: null, events: [] };

/**
 * The talk-through of takes as they were recorded, in their order, with all that was put right. The first that is there is
 * where it begins; each later one is put in its place by the edit that it came with. null where nothing is left at all.
 */
export function wholeTalk(
  takes: readonly (TalkTake | null)[],
  edits: readonly TalkEdit[],
  closing: TalkClosing,
): Talk | null {
  const first = takes.findIndex((take) => take !== null);
  const length = takes[first]?.length;
  if (length === undefined) return null;
  const recorded: Talk = {
    ...{ closing, takes: takes.map((take) => take ?? EMPTY_TAKE) },
    pieces: [{ take: first, from: 0, to: length }],
  };
  return editedBy(recorded, edits);
}

/** What the last picture says, out of the lesson page: the key thoughts and the first drill. */
export function closingOf({ keyThoughts, drills }: LessonPage): TalkClosing {
  const [drill] = drills;
  const said = (lines: readonly string[]): string[] => lines.map((line) => oneLine(line)).filter((line) => line !== '');
  const title = drill === undefined ? '' : oneLine(drill.title);
  return {
    thoughts: said(keyThoughts).slice(0, TALK_LIMITS.thoughts),
    drill:
      drill === undefined || title === ''
        ? null
        : { title, steps: said([...drill.steps, drill.counts, drill.caution]).slice(0, TALK_LIMITS.steps) },
  };
}

function oneLine(text: string): string {
  return [...text.replaceAll(/\s+/g, ' ').trim()].slice(0, TALK_LIMITS.text).join('');
}
