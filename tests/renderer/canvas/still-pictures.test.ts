import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { PictureQuality } from '../../../core/model/picture-layout.ts';
import { createStillPictures } from '../../../renderer/canvas/still-pictures.ts';

// The clock goes on when a test says so: a busy machine changes nothing.
beforeAll(() => void vi.useFakeTimers());
afterAll(() => void vi.useRealTimers());
const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms));

class FakePicture implements ImageBitmap {
  width = 1280;
  height = 720;
  close(): void {
    this.width = 0;
  }
}

/** A frame server that takes 10 ms a picture, and what was asked of it and shown. */
function cells(broken: readonly string[] = []) {
  const asked: string[] = [];
  const shown: string[] = [];
  const failures: string[] = [];
  const pictures: ImageBitmap[] = [];
  const again = new Set<() => void>();
  const stills = createStillPictures({
    async single(clip, frame, quality, signal) {
      const name = `${quality} ${clip} ${String(frame)}`;
      asked.push(name);
      await new Promise((resolve) => setTimeout(resolve, 10));
      signal.throwIfAborted();
      if (broken.includes(name)) throw new Error(name);
      return new FakePicture();
    },
    onStartAgain(listener) {
      again.add(listener);
      return () => again.delete(listener);
    },
  });
  const follow = (frame: number, quality: PictureQuality = 'sharp', clip = 'a') =>
    stills.follow(
      { clip, frame, quality },
      (still) => {
        shown.push(`${still.quality} ${String(still.of.frame)}`);
        pictures.push(still.picture);
      },
      (error) => failures.push(String(error)),
    );
  return { stills, follow, asked, shown, failures, pictures, startAgain: () => again.forEach((tell) => tell()) };
}

test('the small picture comes first, the sharp one in its place once the frame rests, and the small one is closed', async () => {
  const { follow, shown, pictures } = cells();
  follow(3);
  await wait(20);
  expect(shown).toEqual(['proxy 3']);
  await wait(100);
  expect(shown).toEqual(['proxy 3', 'sharp 3']);
  expect(pictures.map(({ width }) => width)).toEqual([0, 1280]);
});

test('what was shown is not asked for again, and where the small picture is enough no sharp one is', async () => {
  const { follow, asked, shown } = cells();
  follow(3, 'proxy');
  await wait(200);
  follow(3, 'proxy');
  await wait(200);
  expect([asked, shown]).toEqual([['proxy a 3'], ['proxy 3', 'proxy 3']]);
  follow(3);
  await wait(200);
  follow(3);
  await wait(200);
  expect(asked).toEqual(['proxy a 3', 'sharp a 3']);
  expect(shown.slice(2)).toEqual(['proxy 3', 'sharp 3', 'sharp 3']);
});

test('a frame that is left at once shows nothing and is not made sharp', async () => {
  const { follow, asked, shown, failures } = cells();
  follow(3)();
  const stop = follow(4);
  await wait(20);
  stop();
  await wait(200);
  expect(asked).toEqual(['proxy a 3', 'proxy a 4']);
  expect([shown, failures]).toEqual([['proxy 4'], []]);
});

test('a frame without a small picture shows the sharp one, one without a sharp one keeps the small one', async () => {
  const { follow, shown, failures } = cells(['proxy a 1', 'sharp a 2', 'proxy a 3', 'sharp a 3', 'proxy a 4']);
  for (const frame of [1, 2, 3]) follow(frame);
  follow(4, 'proxy');
  await wait(300);
  expect(shown).toEqual(['proxy 2', 'sharp 1']);
  expect(failures).toEqual(['Error: proxy a 4', 'Error: sharp a 3']);
});

test('what did not come is asked for once more when the frame server is started again', async () => {
  const broken = ['proxy a 1', 'sharp a 1'];
  const { follow, shown, failures, startAgain } = cells(broken);
  follow(1);
  await wait(200);
  expect([shown, failures]).toEqual([[], ['Error: sharp a 1']]);
  broken.length = 0;
  startAgain();
  await wait(200);
  expect(shown).toEqual(['proxy 1', 'sharp 1']);
});

test('pictures of a clip whose frames have other numbers now are forgotten, those of other clips stay', async () => {
  const { stills, follow, asked } = cells();
  follow(1, 'proxy');
  follow(1, 'proxy', 'b');
  await wait(100);
  stills.forget('a');
  follow(1, 'proxy');
  follow(1, 'proxy', 'b');
  await wait(100);
  expect(asked).toEqual(['proxy a 1', 'proxy b 1', 'proxy a 1']);
});

test('of very many pictures those longest unused are closed', async () => {
  const { follow, pictures } = cells();
  for (let frame = 0; frame < 60; frame += 1) {
    follow(frame, 'proxy');
    await wait(20);
  }
  expect(pictures.map(({ width }) => width > 0)).toEqual(Array.from({ length: 60 }, (_, place) => place >= 12));
});

test('what is cleared is closed, and asked for anew', async () => {
  const { stills, follow, asked, pictures } = cells();
  follow(3, 'proxy');
  await wait(200);
  stills.clear();
  expect(pictures.map(({ width }) => width)).toEqual([0]);
  follow(3, 'proxy');
  await wait(200);
  expect(asked).toEqual(['proxy a 3', 'proxy a 3']);
});
