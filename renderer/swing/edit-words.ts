import { BODY_POINT_INFO, BODY_POINTS } from '../../core/model/body-points.ts';
import type { Edit, MarksEdit } from '../../core/model/edit.ts';
import type { FrameMarks, Shape } from '../../core/model/mark.ts';
import type { TalkEdit } from '../../core/model/talk.ts';
import { say } from '../../core/model/say.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';

/** What an edit did, in few words, e.g. "tailbone moved on frame 118". Says so when it was in another swing than `openSwing`. */
export function editInWords(edit: Edit, openSwing: string | null): string {
  const words = wordsOf(edit);
  return edit.swingId === openSwing ? words : `${words}, in another swing`;
}

function wordsOf(edit: Edit): string {
  switch (edit.kind) {
    case 'marks':
      return `${marksInWords(edit)} on frame ${String(edit.after.frame.index)}`;
    case 'checkpoint': {
      const label = CHECKPOINT_LABELS[edit.checkpoint].toLowerCase();
      if (edit.after === null) return `${label} un-named`;
      return `frame ${String(edit.after.index)} named ${label}`;
    }
    case 'capture-rate':
      return 'real rate changed';
    case 'view':
      return `view changed to ${VIEW_LABELS[edit.after].toLowerCase()}`;
    case 'pins':
      return edit.after.length > edit.before.length ? 'reading put on the still' : 'reading taken off the still';
    case 'page':
      return 'lesson page changed';
    case 'talk':
      return `talk-through: ${TALK_WORDS[(edit.after ?? edit.before)?.kind ?? 'cut']}`;
    case 'consent':
      return edit.after ? say`consent given` : say`consent taken back`;
  }
}

const TALK_WORDS: Readonly<Record<TalkEdit['kind'], string>> = {
  retake: 'recorded anew',
  cut: 'part cut',
  'move-drawing': 'drawing moved',
  'remove-drawing': 'drawing removed',
  'swap-frame': 'frame swapped',
  caption: 'caption changed',
  chapter: 'finding named',
  closing: 'closing card changed',
};

/** The one thing that changed, or that it was several. */
function marksInWords({ before, after }: MarksEdit): string {
  const changes = [...pointChanges(before, after), ...shapeChanges(before, after)];
  const [first] = changes;
  if (first === undefined) return 'marks kept';
  return changes.length === 1 ? first : `${String(changes.length)} marks changed`;
}

function pointChanges(before: FrameMarks, after: FrameMarks): readonly string[] {
  return BODY_POINTS.flatMap((point) => {
    const [was, is] = [before.points[point], after.points[point]];
    const name = BODY_POINT_INFO[point].label.toLowerCase();
    if (was === undefined) return is === undefined ? [] : [`${name} placed`];
    if (is === undefined) return [`${name} deleted`];
    if (was.x !== is.x || was.y !== is.y) return [`${name} moved`];
    return was.hidden === is.hidden ? [] : [`${name} ${is.hidden ? 'hidden' : 'no longer hidden'}`];
  });
}

function shapeChanges(before: FrameMarks, after: FrameMarks): readonly string[] {
  const gone = before.shapes.filter(({ id }) => after.shapes.every((shape) => shape.id !== id));
  const changed = after.shapes.flatMap((shape) => {
    const was = before.shapes.find(({ id }) => id === shape.id);
    const name = wordFor(shape);
    if (was === undefined) return [`${name} drawn`];
    return JSON.stringify(was) === JSON.stringify(shape) ? [] : [`${name} changed`];
  });
  return [...gone.map((shape) => `${wordFor(shape)} deleted`), ...changed];
}

function wordFor(shape: Shape): string {
  return kindOf(shape).label.toLowerCase();
}
