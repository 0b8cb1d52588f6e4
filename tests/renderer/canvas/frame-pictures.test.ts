import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { createFramePictures } from '../../../renderer/canvas/frame-pictures.ts';
import type { PictureQuality } from '../../../core/model/picture-layout.ts';

// The clock goes on when a test says so: a busy machine changes nothing.
beforeAll(() => void vi.useFakeTimers());
afterAll(() => void vi.useRealTimers());
const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms));

class FakePicture {
  readonly width = 1280;
  readonly height = 720;
  closed = false;
  readonly index: number;
  readonly quality: PictureQuality;
  constructor(index: number, quality: PictureQuality) {
    this.index = index;
    this.quality = quality;
  }
  close(): void {
    this.closed = true;
  }
}

/** Pictures that take `ms` to come, and a record of what was shown. */
function bench(ms: number, broken: readonly number[] = []) {
  const made: FakePicture[] = [];
  const shown: string[] = [];
  const failures: number[] = [];
  let onScreen: FakePicture | null = null;
  const pictures = createFramePictures<FakePicture>({
    frameCount: 100,
    restMs: 20,
    async load(index, quality, signal) {
      await new Promise((resolve) => setTimeout(resolve, ms));
      if (broken.includes(index)) throw new Error('no such frame');
      signal.throwIfAborted();
      const picture = new FakePicture(index, quality);
      made.push(picture);
      return picture;
    },
    show(picture, index, quality) {
      onScreen = picture;
      shown.push(`${quality} ${String(index)}`);
    },
    failed: (_error, index) => failures.push(index),
  });
  return { pictures, made, shown, failures, onScreen: () => onScreen };
}

test('a frame comes small first and sharp when it rests', async () => {
  const { pictures, shown } = bench(2);
  pictures.want(7);
  await wait(80);
  expect(shown).toEqual(['proxy 7', 'sharp 7']);
  pictures.close();
});

test('the latest request wins: no frame is shown after a later one', async () => {
  const { pictures, shown } = bench(5);
  for (const index of [1, 2, 3, 40]) pictures.want(index);
  await wait(100);
  expect(shown).toEqual(['proxy 40', 'sharp 40']);
  pictures.close();
});

test('frames in the direction of travel are there before they are asked for', async () => {
  const { pictures, shown, made } = bench(2);
  pictures.want(50);
  await wait(80);
  pictures.want(49);
  await wait(60);
  const proxy = made.filter((picture) => picture.quality === 'proxy').map((picture) => picture.index);
  // Neighbours that came sharp meanwhile need no proxy picture.
  expect(proxy.filter((index) => index >= 50)).toEqual([50, 51, 52, 53, 54, 55, 56, 57, 58]);
  expect(proxy).toContain(48);
  expect(proxy).toContain(41);
  shown.length = 0;
  pictures.want(48);
  expect(shown).toHaveLength(1);
  expect(shown[0]).toMatch(/ 48$/);
  pictures.close();
});

test('what is on screen is never closed, and at the end everything is', async () => {
  const { pictures, made, onScreen } = bench(0);
  for (let index = 0; index < 90; index += 1) {
    pictures.want(index);
    await wait(1);
    expect(onScreen()?.closed ?? false).toBe(false);
  }
  await wait(60);
  expect(made.filter((picture) => !picture.closed).length).toBeLessThan(50);
  pictures.close();
  await wait(20);
  expect(made.every((picture) => picture.closed)).toBe(true);
});

test('a frame that cannot be made is told once, and only while it is wanted', async () => {
  const { pictures, failures, shown } = bench(2, [5]);
  pictures.want(5);
  await wait(60);
  pictures.want(6);
  await wait(60);
  expect([failures, shown]).toEqual([[5], ['proxy 6', 'sharp 6']]);
  pictures.close();
});

test('a run fetches ahead the frames that it will show, makes none sharp on the way, and rests on its last', async () => {
  const { pictures, made, shown } = bench(2);
  pictures.want(10, 4);
  await wait(80);
  expect(made.map(({ index }) => index).toSorted((a, b) => a - b)).toEqual([10, 14, 18, 22, 26, 30, 34, 38, 42]);
  expect(made.every(({ quality }) => quality === 'proxy')).toBe(true);
  shown.length = 0;
  pictures.want(14, 4);
  expect(shown).toEqual(['proxy 14']);
  await wait(60);
  expect(shown).toEqual(['proxy 14']);
  pictures.want(14);
  await wait(80);
  expect(shown).toEqual(['proxy 14', 'sharp 14']);
  pictures.close();
});

test('a frame of a run that cannot be made is told', async () => {
  const { pictures, failures } = bench(2, [12]);
  pictures.want(12, 1);
  await wait(60);
  expect(failures).toEqual([12]);
  pictures.close();
});

test('a run that goes back to its beginning fetches ahead from there', async () => {
  const { pictures, made } = bench(2);
  pictures.want(90, 1);
  await wait(40);
  pictures.want(20, 1);
  await wait(60);
  expect(made.map(({ index }) => index)).toEqual(expect.arrayContaining([20, 21, 22, 23]));
  expect(made.some(({ index }) => index < 20)).toBe(false);
  pictures.close();
});

test('while the hand needs the machine only the wanted picture is made; the others come after it', async () => {
  const { pictures, made, shown } = bench(2);
  pictures.hold(true);
  pictures.want(30);
  await wait(80);
  expect(shown).toEqual(['proxy 30', 'sharp 30']);
  expect(made.map(({ index }) => index)).toEqual([30, 30]);
  pictures.hold(false);
  await wait(80);
  const indexes = (quality: PictureQuality) =>
    new Set(made.filter((each) => each.quality === quality).map((each) => each.index));
  expect([...indexes('sharp')].toSorted((a, b) => a - b)).toEqual([28, 29, 30, 31, 32]);
  expect(indexes('proxy').size).toBe(9);
  pictures.close();
});

test('a neighbour that is on its way is dropped for the hand, and made after it', async () => {
  const { pictures, made, shown } = bench(30);
  pictures.want(30);
  // The next one is begun at once, and takes its time.
  while (!shown.includes('sharp 30')) await wait(1);
  pictures.hold(true);
  await wait(80);
  expect(made.filter(({ quality }) => quality === 'sharp').map(({ index }) => index)).toEqual([30]);
  pictures.hold(false);
  await wait(200);
  expect(made.filter(({ quality }) => quality === 'sharp').length).toBeGreaterThan(2);
  pictures.close();
});
