import { ask } from '../api.ts';
import { createFrameFeed } from '../canvas/frame-feed.ts';
import type { FrameFeed } from '../canvas/frame-feed.ts';

/** The window's one end of the frame server. */
export const feed: FrameFeed = createFrameFeed({
  requestPort: () => ask('frames/connect', null),
  show: (id) => ask('clip/show', { id }),
});
