import { describe, expect, test } from 'vitest';
import { placePanes } from '../../../core/film/pane-places.ts';
import { FILM_SIZES } from '../../../core/talk/film-plan.ts';
import { within } from '../../support/within.ts';
import { pane } from '../talk/sample-talk.ts';

const SIZES = { wide: { width: 1920, height: 1080 }, upright: { width: 1080, height: 1920 } };
const places = (shape: 'wide' | 'phone', size: { width: number; height: number }, ...parts: (typeof PART | null)[]) =>
  placePanes(
    parts.map((part, index) => pane(index, { part })),
    shape,
    () => size,
  );
const PART = { x: 300, y: 200, width: 400, height: 500 };

describe.each(['wide', 'phone'] as const)('%s', (shape) => {
  test.each([SIZES.wide, SIZES.upright, { width: 354, height: 492 }])(
    'a picture of %o is never distorted nor cut off',
    (size) => {
      for (const parts of [[null], [null, null], [PART], [PART, null]])
        for (const { source, target, room, scale } of places(shape, size, ...parts)) {
          within(target.width / source.width, scale, 1e-9);
          within(target.height / source.height, scale, 1e-9);
          expect(source.x >= 0 && source.y >= 0).toBe(true);
          expect(source.x + source.width).toBeLessThanOrEqual(size.width + 1e-9);
          expect(source.y + source.height).toBeLessThanOrEqual(size.height + 1e-9);
          expect(target.x >= room.x - 1e-9 && target.x + target.width <= room.x + room.width + 1e-9).toBe(true);
          expect(target.y >= room.y - 1e-9 && target.y + target.height <= room.y + room.height + 1e-9).toBe(true);
        }
    },
  );

  test('two pictures share the room alike and do not lie over each other', () => {
    const [one, two] = places(shape, SIZES.wide, null, null);
    const { width, height } = FILM_SIZES[shape];
    if (one === undefined || two === undefined) throw new Error('two were placed');
    expect([one.room.width, one.room.height]).toEqual([two.room.width, two.room.height]);
    expect(shape === 'wide' ? two.room.x + two.room.width : two.room.y + two.room.height).toBe(
      shape === 'wide' ? width : height,
    );
    expect(
      shape === 'wide' ? one.room.x + one.room.width < two.room.x : one.room.y + one.room.height < two.room.y,
    ).toBe(true);
  });
});

test('the part that is looked at is shown whole, in the middle, and fills the room where the picture goes on round it', () => {
  const [place] = places('wide', SIZES.wide, PART);
  if (place === undefined) throw new Error('one was placed');
  const { source, target } = place;
  expect(source.x <= PART.x && source.x + source.width >= PART.x + PART.width).toBe(true);
  expect(source.y <= PART.y && source.y + source.height >= PART.y + PART.height).toBe(true);
  within(target.width, 1920, 1e-6);
  within(target.height, 1080, 1e-6);
});

test('a part that lies outside of the picture is all of it', () => {
  const [place] = places('wide', SIZES.wide, { x: 5000, y: 0, width: 10, height: 10 });
  expect(place?.source).toEqual({ x: 0, y: 0, ...SIZES.wide });
});
