import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { ask, connectFrames, onFramesStopped } from '../api.ts';
import { createFrameFeed } from '../canvas/frame-feed.ts';
import type { FrameFeed } from '../canvas/frame-feed.ts';
import { placeOf } from '../shell/state/route.ts';
import { app } from '../shell/state/app-state.ts';
import { createStillPictures } from '../canvas/still-pictures.ts';

/** The window's one end of the frame server. */
export const feed: FrameFeed = createFrameFeed({
  requestPort: connectFrames,
  // Where only lists are looked at, no copy of a clip is made for its small picture.
  show: (id) => ask(placeOf(app.get().route).at === 'book' ? 'clip/glance' : 'clip/show', { id }),
  onStopped: onFramesStopped,
});

/** Pictures of cells and thumbnails. */
export const stills = createStillPictures(feed);

/** Whether pictures stopped coming altogether. */
export function isStopped(error: unknown): boolean {
  return error instanceof AppError && error.code === 'pictures-stopped';
}

/** What to do then. */
export const TRY_AGAIN = { label: say`Try again`, run: () => feed.startAgain() };
