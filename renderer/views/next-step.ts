import { marksAt } from '../../core/model/swing.ts';
import type { MarkedClip } from '../../core/model/swing.ts';
import { CHECKPOINT_LABELS, VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';

/**
 * What to do next, in one sentence that calls each control by the words that stand on it. Only the usual way through a
 * lesson; whoever works in another order is not held up by it.
 */

/** The three that nearly every lesson needs. */
export const USUAL_CHECKPOINTS: readonly Checkpoint[] = ['address', 'top', 'impact'];

/** Those that body points are placed on, so that shoulders to spine can be read. */
const POINTED: readonly Checkpoint[] = ['address', 'top'];

/** The checkpoint to find next in a clip: the one that is looked for, else the first usual one without a frame, or null. */
export function checkpointToFind(clip: MarkedClip, looksFor: Checkpoint | null): Checkpoint | null {
  const unnamed = (checkpoint: Checkpoint): boolean => clip.checkpoints[checkpoint] === undefined;
  if (looksFor !== null && unnamed(looksFor)) return looksFor;
  return USUAL_CHECKPOINTS.find(unnamed) ?? null;
}

/** The words on the button that gives the frame on the bench the name that is looked for. */
export function thisIsWords(checkpoint: Checkpoint): string {
  return `This is ${inText(checkpoint)}`;
}

/** What is next on the lesson sheet. `canCompare`: there is another swing to compare with, and none was chosen. */
export function nextOnSheet(swing: { readonly clips: readonly MarkedClip[] }, canCompare: boolean): string {
  const clips = VIEWS.flatMap((view) => swing.clips.filter((clip) => clip.view === view));
  if (clips.length === 0)
    return `Press “${addClipWords('down-the-line')}” or “${addClipWords('face-on')}” and choose the file you filmed.`;
  for (const clip of clips) {
    const missing = checkpointToFind(clip, null);
    if (missing !== null) return `Press “Find ${inText(missing)}” under ${VIEW_LABELS[clip.view]}.`;
  }
  for (const clip of clips)
    if (POINTED.some((checkpoint) => isBareAt(clip, checkpoint)))
      return `Press “Open clip” under ${VIEW_LABELS[clip.view]} to place body points and read them.`;
  const compare = canCompare
    ? 'Choose the earlier swing under “Compare with an earlier swing (then)”, or press '
    : 'Press ';
  return `${compare}“Save stills” on the right: they come into a folder of yours, ready to send.`;
}

/** What is next on the bench while nothing is selected, or null where the usual way is at its end. */
export function nextOnBench(clip: MarkedClip, at: number, looksFor: Checkpoint | null): string | null {
  const missing = checkpointToFind(clip, looksFor);
  if (missing !== null)
    return `Find ${inText(missing)}: drag the strip below or use the arrow keys, then press “${thisIsWords(missing)}”.`;
  const bare = POINTED.find((checkpoint) => isBareAt(clip, checkpoint));
  if (bare !== undefined)
    return clip.checkpoints[bare]?.index === at
      ? `Press “Points” to place the body points of ${inText(bare)}.`
      : `Press “${CHECKPOINT_LABELS[bare]}” on the left to go to its frame.`;
  if (clip.view === 'face-on' && !hasHeadBox(clip))
    return clip.checkpoints.address?.index === at
      ? 'Press “Box” and drag a box round the head.'
      : 'Press “Address” on the left, then “Box”, and drag a box round the head.';
  return null;
}

/** The words on the button by which a clip of a view comes in. */
export function addClipWords(view: View): string {
  return `Add a clip, ${VIEW_LABELS[view].toLowerCase()}`;
}

function inText(checkpoint: Checkpoint): string {
  return CHECKPOINT_LABELS[checkpoint].toLowerCase();
}

function isBareAt(clip: MarkedClip, checkpoint: Checkpoint): boolean {
  return Object.keys(marksAt(clip, checkpoint)?.points ?? {}).length === 0;
}

function hasHeadBox(clip: MarkedClip): boolean {
  return clip.marks.some(({ shapes }) => shapes.some((shape) => shape.kind === 'box' && shape.role === 'head-box'));
}
