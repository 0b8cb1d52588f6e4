import { describe, expect, test } from 'vitest';
import { placeOnScreens, windowPlaceOf, type WindowPlace } from '../../electron/window-place.ts';

const LAPTOP = { x: 0, y: 24, width: 1280, height: 776 };
const BESIDE = { x: 1280, y: 0, width: 1920, height: 1080 };
const place = (x: number, y: number, width = 1200, height = 700): WindowPlace => ({
  ...{ x, y, width, height },
  maximised: false,
});

describe('the place of the window', () => {
  test('is the same again where its top lies on a screen', () => {
    expect(placeOnScreens(place(40, 30), [LAPTOP])).toEqual(place(40, 30));
    expect(placeOnScreens(place(1500, 100), [LAPTOP, BESIDE])).toEqual(place(1500, 100));
    // Half outside is how some like it.
    expect(placeOnScreens(place(-1000, 100), [LAPTOP])).toEqual(place(-1000, 100));
  });

  test('is no larger than the screen that is left of two', () => {
    expect(placeOnScreens(place(10, 30, 3000, 1000), [LAPTOP])).toEqual(place(10, 30, 1280, 776));
  });

  test('is given up where no hand could take hold of it', () => {
    expect(placeOnScreens(place(1500, 100), [LAPTOP])).toBeNull();
    expect(placeOnScreens(place(-1150, 100), [LAPTOP])).toBeNull();
    expect(placeOnScreens(place(100, -30), [LAPTOP])).toBeNull();
    expect(placeOnScreens(place(100, 790), [LAPTOP])).toBeNull();
    expect(placeOnScreens(place(0, 30), [])).toBeNull();
  });

  test('is read from its file, and a file that says something else is passed over', () => {
    expect(windowPlaceOf(JSON.stringify(place(1, 2)))).toEqual(place(1, 2));
    for (const text of ['', '{', 'null', '[]', '{"x":1}', JSON.stringify({ ...place(1, 2), width: 'wide' })])
      expect(windowPlaceOf(text)).toBeNull();
    expect(windowPlaceOf(JSON.stringify({ ...place(1, 2), x: 1e9 }))).toBeNull();
  });
});
