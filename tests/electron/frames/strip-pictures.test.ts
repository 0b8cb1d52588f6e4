import { expect, it } from 'vitest';
import { StripPictures } from '../../../electron/frames/strip-pictures.ts';
import type { MakeAll } from '../../../electron/frames/strip-pictures.ts';

const NEVER = new AbortController().signal;
const pictureOf = (frame: number) => ({
  layout: { kind: 'proxy', width: 32, height: 18, matrix: 'bt709', fullRange: false } as const,
  data: Uint8Array.of(frame),
});

/** Notes what is to be made; `make` makes it. */
function noting(make: MakeAll) {
  const runs: (readonly number[])[] = [];
  const pictures = new StripPictures((frames, signal, deliver) => {
    runs.push(frames);
    return make(frames, signal, deliver);
  });
  return { runs, pictures };
}

it('what is asked for at the same time is made in one go, each frame once, and everybody gets the picture asked for', async () => {
  const { runs, pictures } = noting(async (frames, _, deliver) => {
    for (const frame of frames.toReversed()) deliver(frame, pictureOf(frame));
  });
  const came = await Promise.all([3, 1, 3, 2].map((frame) => pictures.picture(frame, NEVER)));
  expect(came.map((picture) => picture?.data[0])).toEqual([3, 1, 3, 2]);
  expect(runs).toEqual([[3, 1, 2]]);
  expect(pictures.busy).toBe(false);
  await pictures.picture(5, NEVER);
  expect(runs).toHaveLength(2);
});

it('what does not come so is told, also when the run fails, so that it is made by itself', async () => {
  const { pictures } = noting(async (_frames, _signal, deliver) => {
    deliver(1, pictureOf(1));
    throw new Error('the file went');
  });
  const [came, missing] = await Promise.all([pictures.picture(1, NEVER), pictures.picture(2, NEVER)]);
  expect(came?.data[0]).toBe(1);
  expect(missing).toBe(null);
  expect(pictures.busy).toBe(false);
});

it('a run ends when the last who waits for it has gone, not before; what nobody wants any more is not begun', async () => {
  let stopped = false;
  let begun = (): void => undefined;
  const began = new Promise<void>((resolve) => (begun = resolve));
  const { runs, pictures } = noting((_, signal) => {
    begun();
    return new Promise((resolve) =>
      signal.addEventListener('abort', () => {
        stopped = true;
        resolve();
      }),
    );
  });
  const [first, second, early] = [new AbortController(), new AbortController(), new AbortController()];
  const waiting = [pictures.picture(1, first.signal), pictures.picture(2, second.signal)];
  const gone = pictures.picture(3, early.signal);
  early.abort();
  await began;
  expect(await gone).toBe(null);
  expect(runs).toEqual([[1, 2]]);
  first.abort();
  expect([stopped, pictures.busy]).toEqual([false, true]);
  second.abort();
  expect(await Promise.all(waiting)).toEqual([null, null]);
  expect(stopped).toBe(true);
});
