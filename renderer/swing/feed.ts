import { AppError } from '../../core/model/errors.ts';
import { ask, connectFrames, onFramesStopped } from '../api.ts';
import { createFrameFeed } from '../canvas/frame-feed.ts';
import type { FrameFeed } from '../canvas/frame-feed.ts';
import { createStillPictures } from '../canvas/still-pictures.ts';

/** The window's one end of the frame server. */
export const feed: FrameFeed = createFrameFeed({
  requestPort: connectFrames,
  show: (id) => ask('clip/show', { id }),
  onStopped: onFramesStopped,
});

/** Pictures of cells and thumbnails. */
export const stills = createStillPictures(feed);

/** Whether pictures stopped coming altogether. */
export function isStopped(error: unknown): boolean {
  return error instanceof AppError && error.code === 'pictures-stopped';
}

/** What to do then. */
export const TRY_AGAIN = { label: 'Try again', run: () => feed.startAgain() };
