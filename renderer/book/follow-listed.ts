import { ask } from '../api.ts';
import { app } from '../shell/state/app-state.ts';
import { placeOf } from '../shell/state/route.ts';
import { stills } from '../swing/feed.ts';
import type { ListedFrame } from './state/list-pictures.ts';

/** So long after the last picture of a list what made them is given back, ms. */
const REST_AFTER = 1500;
let awaited = 0;
let resting: ReturnType<typeof setTimeout> | null = null;

/**
 * Brings the small picture of a frame, from the one cache of pictures or by way of the frame server; where there is none nothing
 * comes. Returns how to stop.
 */
export function followListed({ clip, frame }: ListedFrame, show: (picture: ImageBitmap) => void): () => void {
  let isOver = false;
  awaited += 1;
  const over = (): void => {
    if (isOver) return;
    isOver = true;
    awaited -= 1;
    if (awaited === 0) restSoon();
  };
  const stop = stills.follow(
    { clip, frame, quality: 'proxy' },
    ({ picture }) => {
      over();
      show(picture);
    },
    over,
  );
  return () => {
    stop();
    over();
  };
}

/** No clip is open because a list was looked at. */
function restSoon(): void {
  if (resting !== null) clearTimeout(resting);
  resting = setTimeout(() => {
    const isListed = placeOf(app.get().route).at === 'book' && app.get().swing === null;
    if (awaited === 0 && isListed) ask('frames/rest', null).catch(() => undefined);
  }, REST_AFTER);
}
