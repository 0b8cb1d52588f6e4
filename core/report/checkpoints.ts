import type { MarkedClip } from '../model/swing.ts';
import { CHECKPOINTS, VIEWS, type Checkpoint, type View } from '../model/words.ts';

/** Which frames of a swing, or of then and now, are shown. */

/** The three that nearly every lesson needs. */
export const USUAL_CHECKPOINTS: readonly Checkpoint[] = ['address', 'top', 'impact'];

interface Clips {
  readonly clips: readonly Pick<MarkedClip, 'view' | 'checkpoints'>[];
}

/** The views that every swing has a clip of. */
export function sharedViews(swings: readonly Clips[]): readonly View[] {
  return VIEWS.filter((view) => swings.every(({ clips }) => clips.some((clip) => clip.view === view)));
}

/** Those that are named in the view in every swing, in the order in which they were asked for. */
export function checkpointsToShow(
  swings: readonly Clips[],
  view: View,
  checkpoints: readonly Checkpoint[],
): readonly Checkpoint[] {
  const clips = swings.map((swing) => swing.clips.find((clip) => clip.view === view));
  return checkpoints.filter((checkpoint) => clips.every((clip) => clip?.checkpoints[checkpoint] !== undefined));
}

/** Those of the views that can show one of the checkpoints or more, in their order. */
export function viewsToShow(
  swings: readonly Clips[],
  views: readonly View[],
  checkpoints: readonly Checkpoint[],
): readonly View[] {
  return views.filter((view) => checkpointsToShow(swings, view, checkpoints).length > 0);
}

/** All that one of the views or more can show, in the order of a swing. */
export function showableCheckpoints(swings: readonly Clips[], views: readonly View[]): readonly Checkpoint[] {
  return CHECKPOINTS.filter((checkpoint) => viewsToShow(swings, views, [checkpoint]).length > 0);
}

/** What stands on stills unless told otherwise: of the usual ones what can be shown; where none of them can, all that can. */
export function usualCheckpoints(swings: readonly Clips[], views: readonly View[]): readonly Checkpoint[] {
  const all = showableCheckpoints(swings, views);
  const usual = all.filter((checkpoint) => USUAL_CHECKPOINTS.includes(checkpoint));
  return usual.length > 0 ? usual : all;
}

/** Those that are named in one of a swing's clips or more, in the order of a swing. */
export function namedCheckpoints({ clips }: Clips): readonly Checkpoint[] {
  return CHECKPOINTS.filter((checkpoint) => clips.some((clip) => clip.checkpoints[checkpoint] !== undefined));
}

/** The rows of the lesson sheet: the usual ones, named or to be found, and all that are named. */
export function sheetCheckpoints(swing: Clips): readonly Checkpoint[] {
  const named = namedCheckpoints(swing);
  return CHECKPOINTS.filter((checkpoint) => USUAL_CHECKPOINTS.includes(checkpoint) || named.includes(checkpoint));
}
