import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { CheckpointFrame, FrameRef } from '../../core/model/frame.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { Checkpoint } from '../../core/model/words.ts';

/** One change a coach made to a swing, with what was there before, so that it can be taken back exactly. */
export type SwingEdit =
  | { readonly kind: 'marks'; readonly clipId: string; readonly before: FrameMarks; readonly after: FrameMarks }
  | {
      readonly kind: 'checkpoint';
      readonly clipId: string;
      readonly checkpoint: Checkpoint;
      readonly before: CheckpointFrame | null;
      readonly after: CheckpointFrame | null;
    };

/** The edit that takes `edit` back. */
export function inverseOf(edit: SwingEdit): SwingEdit {
  return edit.kind === 'marks'
    ? { ...edit, before: edit.after, after: edit.before }
    : { ...edit, before: edit.after, after: edit.before };
}

/** The swing after the edit. An edit of a clip that is gone changes nothing. */
export function withEdit(swing: BookSwing, edit: SwingEdit): BookSwing {
  const clips = swing.clips.map((clip) => (clip.id === edit.clipId ? withClipEdit(clip, edit) : clip));
  return { ...swing, clips };
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

function withClipEdit(clip: BookClip, edit: SwingEdit): BookClip {
  if (edit.kind === 'marks') return withMarks(clip, edit.after);
  const checkpoints: Partial<Record<Checkpoint, CheckpointFrame>> = { ...clip.checkpoints };
  if (edit.after !== null) return { ...clip, checkpoints: { ...checkpoints, [edit.checkpoint]: edit.after } };
  const left = Object.entries(checkpoints).filter(([checkpoint]) => checkpoint !== edit.checkpoint);
  return { ...clip, checkpoints: Object.fromEntries(left) };
}
