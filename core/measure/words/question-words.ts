import { lowered, say } from '../../model/say.ts';
import type { MarkedSwing } from '../../model/swing.ts';
import { HANDEDNESS_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { formatNumber, formatPlain } from './format.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import { questionsOf, type ClipQuestion } from '../doubts/questions.ts';

/** What to ask about all clips of a swing, as sentences for the coach; empty where nothing is contradicted. */
export function questionsAbout(
  { clips, handedness }: Pick<MarkedSwing, 'clips' | 'handedness'>,
  placing?: PlacingErrors,
): readonly string[] {
  return clips.flatMap((clip) => questionsOf(clip, handedness, placing)).map(questionWords);
}

/** What is contradicted, and what to do, in plain sentences. */
export function questionWords(question: ClipQuestion): string {
  return `${VIEW_LABELS[question.view]}: ${sentencesOf(question)}`;
}

function sentencesOf(question: ClipQuestion): string {
  switch (question.kind) {
    case 'hand': {
      const hand = lowered(HANDEDNESS_LABELS[question.handedness]);
      return say`these marks fit a player of the opposite handedness, and the lesson says ${hand}. Every sign may be reversed. Check the lesson's handedness, which points are lead and trail, and whether the clip is mirrored.`;
    }
    case 'crossed':
      return question.role === 'plumb'
        ? say`this plumb lies level in the picture, so it is not used. Is it a level? Then say so; else draw it along an upright edge.`
        : say`this level stands upright in the picture, so it is not used. Is it a plumb? Then say so; else draw it along a level edge.`;
    case 'leaning':
      return question.role === 'plumb'
        ? say`this plumb is ${formatPlain(question.degrees, 'deg', 0)} off in the picture. Is that edge really upright?`
        : say`this level is ${formatPlain(question.degrees, 'deg', 0)} off in the picture. Is that edge really level?`;
    case 'unsure-scale':
      return say`the known lengths in this picture give no scale, so no centimetres are shown. One is too short or lies along the view, or two of them disagree. Check their lengths, or mark a longer one across the view.`;
    case 'size':
      return say`by the known length the player's leg is ${formatNumber(question.legCm, question.u, 'cm').text} long. Is its length right, and does it lie across the view, beside the player?`;
  }
}
