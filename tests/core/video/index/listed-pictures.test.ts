import { expect, test } from 'vitest';
import { timesRise } from '../../../../core/time/entries.ts';
import { shownFrames } from '../../../../core/time/shown-frames.ts';
import { framesOf, packetsOf } from '../../../../core/video/index/listed-pictures.ts';
import type { ListedPictures } from '../../../../core/video/index/listed-pictures.ts';
import { picturesOf } from '../../../../core/video/index/parse-framecrc.ts';
import { seeded } from '../../../support/seeded.ts';

const listed = (pts: readonly number[], keys: readonly number[], durations: readonly number[]): ListedPictures => ({
  ...{ trackId: 1, timescale: 90_000, sizes: new Float64Array(pts.length).fill(1) },
  ...{ pts: Float64Array.from(pts), durations: Float64Array.from(durations), keys: Uint8Array.from(keys) },
});

/** By a list of pictures, one by one. */
function oneByOne(of: ListedPictures): ReturnType<typeof framesOf> {
  const pictures = picturesOf(packetsOf(of));
  return { table: shownFrames(pictures), rises: timesRise(pictures) };
}

test('times of a file with B-frames, those that go backwards and those that two pictures share', () => {
  expect(framesOf(listed([0, 300, 100, 200], [1, 0, 0, 0], [100, 100, 100, 100]))).toEqual({
    table: {
      frames: [
        { pts: 0, ticks: 100, key: true },
        { pts: 100, ticks: 100, key: false },
        { pts: 200, ticks: 100, key: false },
        { pts: 300, ticks: 100, key: false },
      ],
      ...{ timeless: 0, doubled: 0, hidden: 0 },
    },
    rises: true,
  });
  expect(framesOf(listed([500, 600, 100], [1, 0, 1], [100, 100, 0])).rises).toBe(false);
  const doubled = framesOf(listed([7, 7, 9], [1, 0, 0], [2, 2, 0]));
  expect(doubled.table).toEqual({
    frames: [
      { pts: 7, ticks: 2, key: true },
      { pts: 9, ticks: 2, key: false },
    ],
    ...{ timeless: 0, doubled: 1, hidden: 0 },
  });
});

test('what is drawn at random gives the frames that a list of pictures gives', () => {
  const random = seeded(5);
  const whole = (below: number): number => Math.floor(random() * below);
  for (let tried = 0; tried < 300; tried += 1) {
    const count = 1 + whole(12);
    const of = (each: (place: number) => number) => Array.from({ length: count }, (_, place) => each(place));
    // Mostly in order, at times anywhere, and some share a time.
    const pictures = listed(
      of((place) => (random() < 0.8 ? place * 10 : whole(count) * 10)),
      of((place) => (place === 0 || random() < 0.3 ? 1 : 0)),
      of(() => whole(3) * 5),
    );
    expect(framesOf(pictures)).toEqual(oneByOne(pictures));
  }
});
