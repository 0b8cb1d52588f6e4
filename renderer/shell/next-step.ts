import { lowered, say } from '../../core/model/say.ts';
import type { Shape } from '../../core/model/mark.ts';
import { marksAt } from '../../core/model/swing.ts';
import type { MarkedClip } from '../../core/model/swing.ts';
import { CHECKPOINT_LABELS, VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { USUAL_CHECKPOINTS } from '../../core/report/checkpoints.ts';

/**
 * What to do next, in one sentence that calls each control by the words that stand on it. Only the usual way through a
 * lesson; whoever works in another order is not held up by it.
 */

/** Those that body points are placed on: down the line the shoulders at top are read against the spine of address. */
const POINTED: Readonly<Record<View, readonly Checkpoint[]>> = {
  'down-the-line': ['address', 'top'],
  'face-on': ['address'],
};

/** The checkpoint to find next in a clip: the one that is looked for, else the first usual one without a frame, or null. */
export function checkpointToFind(clip: MarkedClip, looksFor: Checkpoint | null): Checkpoint | null {
  const unnamed = (checkpoint: Checkpoint): boolean => clip.checkpoints[checkpoint] === undefined;
  if (looksFor !== null && unnamed(looksFor)) return looksFor;
  return USUAL_CHECKPOINTS.find(unnamed) ?? null;
}

/** The words on the button that gives the frame on the bench the name that is looked for. */
export function thisIsWords(checkpoint: Checkpoint): string {
  return say`This is ${inText(checkpoint)}`;
}

/** What is next on the lesson sheet. `canCompare`: there is another swing to compare with, and none was chosen. */
export function nextOnSheet(swing: { readonly clips: readonly MarkedClip[] }, canCompare: boolean): string {
  const clips = VIEWS.flatMap((view) => swing.clips.filter((clip) => clip.view === view));
  if (clips.length === 0)
    return say`Press “${addClipWords('down-the-line')}” or “${addClipWords('face-on')}” and choose the file you filmed.`;
  for (const clip of clips) {
    const missing = checkpointToFind(clip, null);
    if (missing !== null) return say`Press “Find ${inText(missing)}” under ${VIEW_LABELS[clip.view]}.`;
  }
  for (const clip of clips)
    if (needsHeadBox(clip) || bareCheckpoint(clip) !== null)
      return say`Press “Open clip” under ${VIEW_LABELS[clip.view]} to mark its frames and read them.`;
  const [missing] = VIEWS.filter((view) => clips.every((clip) => clip.view !== view));
  const other = missing === undefined ? '' : say` “${addClipWords(missing)}” brings in the other view.`;
  return canCompare
    ? say`Choose the earlier swing under “Compare with an earlier swing (then)”, or press “Save stills”. You pick the folder.${other}`
    : say`Press “Save stills”. You pick the folder.${other}`;
}

/** What is next on the bench while nothing is selected, or null where the usual way is at its end. */
export function nextOnBench(clip: MarkedClip, at: number, looksFor: Checkpoint | null): string | null {
  const missing = checkpointToFind(clip, looksFor);
  if (missing !== null)
    return say`Find ${inText(missing)}: drag the strip below or use the arrow keys, then press “${thisIsWords(missing)}”.`;
  const [wanted, what] = needsHeadBox(clip)
    ? (['address', say`Press “Box” and drag a box round the head.`] as const)
    : ([bareCheckpoint(clip), null] as const);
  if (wanted === null) return null;
  return clip.checkpoints[wanted]?.index === at
    ? (what ?? say`Press “Points” to place the body points of ${inText(wanted)}.`)
    : say`Press “${CHECKPOINT_LABELS[wanted]}” to go to its frame.`;
}

/** The words on the button by which a clip of a view comes in. */
export function addClipWords(view: View): string {
  return say`Add a clip, ${lowered(VIEW_LABELS[view])}`;
}

function inText(checkpoint: Checkpoint): string {
  return lowered(CHECKPOINT_LABELS[checkpoint]);
}

/** The first checkpoint that body points belong to and that has none. */
function bareCheckpoint(clip: MarkedClip): Checkpoint | null {
  const isBare = (checkpoint: Checkpoint): boolean => Object.keys(marksAt(clip, checkpoint)?.points ?? {}).length === 0;
  return POINTED[clip.view].find(isBare) ?? null;
}

/** The head is watched face on, against a box drawn at address. */
function needsHeadBox({ view, marks }: MarkedClip): boolean {
  const isOne = (shape: Shape): boolean => shape.kind === 'box' && shape.role === 'head-box';
  return view === 'face-on' && !marks.some(({ shapes }) => shapes.some(isOne));
}
