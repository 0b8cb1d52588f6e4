import type { CaptureRate, CheckpointFrame } from './frame.ts';
import type { LessonPage } from './lesson-page.ts';
import type { FrameMarks } from './mark.ts';
import type { ReadingKey } from './reading.ts';
import type { TalkEdit } from './talk.ts';
import type { Checkpoint, View } from './words.ts';

/**
 * One change that a coach made to a swing, with what was there before, so that it can be taken back exactly. A new kind of
 * edit is one more member here, one more schema in core/parse/edit.ts, and one more case in core/book/edits.ts and in the
 * window's swing-edit.ts and edit-words.ts; the compiler names the places. One that names frames also belongs in
 * core/book/renumber-edits.ts, which the compiler does not name.
 */
export type Edit =
  | MarksEdit
  | CheckpointEdit
  | CaptureRateEdit
  | ViewEdit
  | PinsEdit
  | PageEdit
  | TalkChange
  | ConsentEdit;

interface EditOfSwing {
  readonly swingId: string;
}

interface EditOfClip extends EditOfSwing {
  readonly clipId: string;
}

/** All that is marked on one frame; before and after name the same frame. */
export interface MarksEdit extends EditOfClip {
  readonly kind: 'marks';
  readonly before: FrameMarks;
  readonly after: FrameMarks;
}

export interface CheckpointEdit extends EditOfClip {
  readonly kind: 'checkpoint';
  readonly checkpoint: Checkpoint;
  readonly before: CheckpointFrame | null;
  readonly after: CheckpointFrame | null;
}

export interface CaptureRateEdit extends EditOfClip {
  readonly kind: 'capture-rate';
  readonly before: CaptureRate | null;
  readonly after: CaptureRate | null;
}

export interface ViewEdit extends EditOfClip {
  readonly kind: 'view';
  readonly before: View;
  readonly after: View;
}

/** Which readings stand on the stills, all of a swing. */
export interface PinsEdit extends EditOfSwing {
  readonly kind: 'pins';
  readonly before: readonly ReadingKey[];
  readonly after: readonly ReadingKey[];
}

/** The lesson page of the swing's lesson, all of it. */
export interface PageEdit extends EditOfSwing {
  readonly kind: 'page';
  readonly before: LessonPage;
  readonly after: LessonPage;
}

/**
 * The latest of the edits of the swing's talk-through: one that is added (before null), or taken off again (after null).
 * What stood before it is not named: edits are taken back in their order.
 */
export interface TalkChange extends EditOfSwing {
  readonly kind: 'talk';
  readonly before: TalkEdit | null;
  readonly after: TalkEdit | null;
}

/** Whether the coach has confirmed consent for what goes out of the swing's lesson. */
export interface ConsentEdit extends EditOfSwing {
  readonly kind: 'consent';
  readonly before: boolean;
  readonly after: boolean;
}

/**
 * What the window asks the book to do with edits. `continue`: the change goes on with the lesson's latest edit, as one press
 * of a held key does with the press before, and both are one step back. Undo and redo name the edit they mean.
 */
export type EditWrite =
  | { readonly does: 'make'; readonly edit: Edit }
  | { readonly does: 'continue'; readonly edit: Edit }
  | { readonly does: 'undo' | 'redo'; readonly lessonId: string; readonly edit: Edit };

/** The edits of a lesson: those that can be taken back, the last one last, and those that can be made again, likewise. */
export interface KeptEdits {
  readonly done: readonly Edit[];
  readonly undone: readonly Edit[];
}

/** So many edits of a lesson are kept; older ones can no longer be taken back. A day's work stays well under it. */
export const MOST_KEPT_EDITS = 1000;

/**
 * And so many characters of them as JSON, but the latest always: a lesson with long lines drawn by hand must not become
 * slow to open (8 million are read in less than half a second). A thousand usual edits have 3 million.
 */
export const MOST_KEPT_CHARACTERS = 8_000_000;

/** Those that are kept of edits that can be taken back, the last one last. `size`: characters of an edit as JSON. */
export function latestKept<Each>(edits: readonly Each[], size: (edit: Each) => number): readonly Each[] {
  let characters = 0;
  let first = edits.length;
  while (first > 0 && edits.length - first < MOST_KEPT_EDITS) {
    const edit = edits[first - 1];
    if (edit === undefined) break;
    characters += size(edit);
    if (characters > MOST_KEPT_CHARACTERS && first < edits.length) break;
    first -= 1;
  }
  return first === 0 ? edits : edits.slice(first);
}

/** Two changes of the same frame's marks, or of the same page, one after the other, as one; null where they are not that. */
export function continuedEdit(first: Edit, next: Edit): Edit | null {
  if (first.kind === 'page' && next.kind === 'page')
    return first.swingId === next.swingId ? { ...first, after: next.after } : null;
  if (first.kind !== 'marks' || next.kind !== 'marks') return null;
  const isSame =
    first.swingId === next.swingId &&
    first.clipId === next.clipId &&
    first.after.frame.index === next.before.frame.index &&
    first.after.frame.pts === next.before.frame.pts;
  return isSame ? { ...first, after: next.after } : null;
}

/** Two writes, one after the other, as one; null where each has to be made. */
export function joinedWrite(first: EditWrite, next: EditWrite): EditWrite | null {
  if (next.does !== 'continue' || (first.does !== 'make' && first.does !== 'continue')) return null;
  const edit = continuedEdit(first.edit, next.edit);
  return edit === null ? null : { does: first.does, edit };
}

/** The edit that takes `edit` back. */
export function inverseOf(edit: Edit): Edit {
  switch (edit.kind) {
    case 'marks':
      return { ...edit, before: edit.after, after: edit.before };
    case 'checkpoint':
      return { ...edit, before: edit.after, after: edit.before };
    case 'capture-rate':
      return { ...edit, before: edit.after, after: edit.before };
    case 'view':
      return { ...edit, before: edit.after, after: edit.before };
    case 'pins':
      return { ...edit, before: edit.after, after: edit.before };
    case 'page':
      return { ...edit, before: edit.after, after: edit.before };
    case 'talk':
      return { ...edit, before: edit.after, after: edit.before };
    case 'consent':
      return { ...edit, before: edit.after, after: edit.before };
  }
}
