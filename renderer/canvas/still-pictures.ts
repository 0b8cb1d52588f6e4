import { loadPicture } from './load-picture.ts';

/** Small pictures are kept this wide at most, in pixels: enough for the cropped cells of the sheet. */
const LARGEST_WIDTH = 1280;
/** Then and now, two views, eight checkpoints are 32; about 4 MB each. */
const KEPT = 48;
/** Asked for at the same time; the program makes no more at once, and what waits here can still be called off. */
const AT_ONCE = 2;

interface PictureRequest {
  readonly url: string;
  readonly width: number;
  readonly signal: AbortSignal;
  readonly answer: (picture: ImageBitmap) => void;
  readonly refuse: (error: unknown) => void;
}

const kept = new Map<string, ImageBitmap>();
const waiting: PictureRequest[] = [];
let running = 0;

/**
 * A frame as a small picture, kept for the next time it is shown. The picture is lent: it is closed here when it is old, at
 * the earliest after `KEPT` others were asked for, so it must be drawn when it comes and not held.
 */
export function loadStill(url: string, pictureWidth: number, signal: AbortSignal): Promise<ImageBitmap> {
  const known = kept.get(url);
  if (known !== undefined) return Promise.resolve(known);
  return new Promise((answer, refuse) => {
    waiting.push({ url, width: Math.min(LARGEST_WIDTH, pictureWidth), signal, answer, refuse });
    startNext();
  });
}

/** Forgets the pictures of a clip whose frames have other numbers now; what is drawn of them stays until drawn anew. */
export function forgetStills(clipId: string): void {
  for (const [url, picture] of kept)
    if (url.includes(`/${clipId}/`)) {
      kept.delete(url);
      picture.close();
    }
}

function startNext(): void {
  if (running >= AT_ONCE) return;
  const request = waiting.shift();
  if (request === undefined) return;
  if (request.signal.aborted) {
    request.refuse(request.signal.reason);
    startNext();
    return;
  }
  running += 1;
  fetchStill(request)
    .then(request.answer, request.refuse)
    .finally(() => {
      running -= 1;
      startNext();
    });
}

async function fetchStill({ url, width }: PictureRequest): Promise<ImageBitmap> {
  const known = kept.get(url);
  if (known !== undefined) return known;
  // Once begun it is finished and kept: the program makes it anyway.
  const picture = await loadPicture(url, NEVER, width);
  kept.set(url, picture);
  const [oldest] = kept;
  if (kept.size > KEPT && oldest !== undefined) {
    kept.delete(oldest[0]);
    oldest[1].close();
  }
  return picture;
}

const NEVER = new AbortController().signal;
