import { ask, connectFrames } from '../api.ts';
import { createFrameFeed } from '../canvas/frame-feed.ts';
import type { FrameFeed } from '../canvas/frame-feed.ts';

/** The window's one end of the frame server. */
export const feed: FrameFeed = createFrameFeed({
  requestPort: connectFrames,
  show: (id) => ask('clip/show', { id }),
});
