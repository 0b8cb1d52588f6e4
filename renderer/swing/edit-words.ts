import { lowered, say } from '../../core/model/say.ts';
import { BODY_POINT_INFO, BODY_POINTS } from '../../core/model/body-points.ts';
import type { Edit, MarksEdit } from '../../core/model/edit.ts';
import type { FrameMarks, Shape } from '../../core/model/mark.ts';
import type { TalkEdit } from '../../core/model/talk.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';

/** What an edit did, in few words, e.g. "tailbone moved on frame 118". Says so when it was in another swing than `openSwing`. */
export function editInWords(edit: Edit, openSwing: string | null): string {
  const words = wordsOf(edit);
  return edit.swingId === openSwing ? words : say`${words}, in another swing`;
}

function wordsOf(edit: Edit): string {
  switch (edit.kind) {
    case 'marks':
      return say`${marksInWords(edit)} on frame ${String(edit.after.frame.index)}`;
    case 'checkpoint': {
      const label = lowered(CHECKPOINT_LABELS[edit.checkpoint]);
      if (edit.after === null) return say`${label} un-named`;
      return say`frame ${String(edit.after.index)} named ${label}`;
    }
    case 'capture-rate':
      return say`real rate changed`;
    case 'view':
      return say`view changed to ${lowered(VIEW_LABELS[edit.after])}`;
    case 'pins':
      return edit.after.length > edit.before.length ? say`reading put on the still` : say`reading taken off the still`;
    case 'page':
      return say`lesson page changed`;
    case 'talk':
      return say`talk-through: ${TALK_WORDS[(edit.after ?? edit.before)?.kind ?? 'cut']}`;
    case 'consent':
      return edit.after ? say`consent given` : say`consent taken back`;
  }
}

const TALK_WORDS: Readonly<Record<TalkEdit['kind'], string>> = {
  retake: say`recorded anew`,
  cut: say`part cut`,
  'move-drawing': say`drawing moved`,
  'remove-drawing': say`drawing removed`,
  'swap-frame': say`frame swapped`,
  caption: say`caption changed`,
  chapter: say`finding named`,
  closing: say`closing card changed`,
};

/** The one thing that changed, or that it was several. */
function marksInWords({ before, after }: MarksEdit): string {
  const changes = [...pointChanges(before, after), ...shapeChanges(before, after)];
  const [first] = changes;
  if (first === undefined) return say`marks kept`;
  return changes.length === 1 ? first : say`${String(changes.length)} marks changed`;
}

function pointChanges(before: FrameMarks, after: FrameMarks): readonly string[] {
  return BODY_POINTS.flatMap((point) => {
    const [was, is] = [before.points[point], after.points[point]];
    const name = lowered(BODY_POINT_INFO[point].label);
    if (was === undefined) return is === undefined ? [] : [say`${name} placed`];
    if (is === undefined) return [say`${name} deleted`];
    if (was.x !== is.x || was.y !== is.y) return [say`${name} moved`];
    return was.hidden === is.hidden ? [] : [is.hidden ? say`${name} hidden` : say`${name} no longer hidden`];
  });
}

function shapeChanges(before: FrameMarks, after: FrameMarks): readonly string[] {
  const gone = before.shapes.filter(({ id }) => after.shapes.every((shape) => shape.id !== id));
  const changed = after.shapes.flatMap((shape) => {
    const was = before.shapes.find(({ id }) => id === shape.id);
    const name = wordFor(shape);
    if (was === undefined) return [say`${name} drawn`];
    return JSON.stringify(was) === JSON.stringify(shape) ? [] : [say`${name} changed`];
  });
  return [...gone.map((shape) => say`${wordFor(shape)} deleted`), ...changed];
}

function wordFor(shape: Shape): string {
  return lowered(kindOf(shape).label);
}
