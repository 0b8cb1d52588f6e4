import type { BookClip, BookSwing, Lesson } from '../../../core/model/book.ts';
import type { Edit, TalkChange } from '../../../core/model/edit.ts';
import type { CheckpointFrame, FrameRef } from '../../../core/model/frame.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import type { TalkEdit } from '../../../core/model/talk.ts';
import type { Checkpoint } from '../../../core/model/words.ts';

/** The swing after the edit. An edit of another swing, or of a clip that is gone, changes nothing. */
export function withEdit(swing: BookSwing, edit: Edit): BookSwing {
  if (edit.swingId !== swing.swing.id) return swing;
  if (edit.kind === 'pins') return { ...swing, pins: edit.after };
  if (edit.kind === 'page') return { ...swing, page: edit.after };
  if (edit.kind === 'talk') return { ...swing, talkEdits: withTalkChange(swing.talkEdits ?? [], edit) };
  if (edit.kind === 'consent') return { ...swing, lesson: withConsent(swing.lesson, edit.after) };
  const clips = swing.clips.map((clip) => (clip.id === edit.clipId ? withClipEdit(clip, edit) : clip));
  return { ...swing, clips };
}

function withTalkChange(edits: readonly TalkEdit[], { before, after }: TalkChange): readonly TalkEdit[] {
  const others = before === null ? edits : edits.slice(0, -1);
  return after === null ? others : [...others, after];
}

function withConsent(lesson: Lesson, given: boolean): Lesson {
  if (given) return { ...lesson, consent: true };
  const { id, studentId, date, club, handedness, note } = lesson;
  return { id, studentId, date, club, handedness, note };
}

/** Marks of a frame; a frame without any has empty ones. */
export function marksOn(clip: BookClip, frame: FrameRef): FrameMarks {
  return clip.marks.find((marks) => marks.frame.index === frame.index) ?? { frame, points: {}, shapes: [] };
}

export function isBare(marks: FrameMarks): boolean {
  return marks.shapes.length === 0 && Object.keys(marks.points).length === 0;
}

/** The clip with one frame's marks replaced; bare marks leave no entry, and entries stand in the order of frames. */
export function withMarks(clip: BookClip, marks: FrameMarks): BookClip {
  const others = clip.marks.filter((entry) => entry.frame.index !== marks.frame.index);
  const all = isBare(marks) ? others : [...others, marks];
  return { ...clip, marks: all.toSorted((one, other) => one.frame.index - other.frame.index) };
}

function withClipEdit(clip: BookClip, edit: Exclude<Edit, { kind: 'pins' | 'page' | 'talk' | 'consent' }>): BookClip {
  switch (edit.kind) {
    case 'marks':
      return withMarks(clip, edit.after);
    case 'checkpoint':
      return withCheckpoint(clip, edit.checkpoint, edit.after);
    case 'capture-rate':
      return { ...clip, captureRate: edit.after };
    case 'view':
      return { ...clip, view: edit.after };
  }
}

function withCheckpoint(clip: BookClip, checkpoint: Checkpoint, frame: CheckpointFrame | null): BookClip {
  if (frame !== null) return { ...clip, checkpoints: { ...clip.checkpoints, [checkpoint]: frame } };
  const left = Object.entries(clip.checkpoints).filter(([name]) => name !== checkpoint);
  return { ...clip, checkpoints: Object.fromEntries(left) };
}
