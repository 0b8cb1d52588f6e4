import { describe, expect, test } from 'vitest';
import {
  fitted,
  fittedTo,
  LARGEST_ZOOM,
  panned,
  pinched,
  toPicture,
  toScreen,
  zoomed,
} from '../../../renderer/canvas/view-transform.ts';
import { within } from '../../support/within.ts';

const PICTURE = { width: 3840, height: 2160 };
const BENCH = { width: 760, height: 488 };

test('a place goes to the screen and back to 1e-9 px after any zooming and panning', () => {
  // Small linear congruential generator, seed 12 (Numerical Recipes constants).
  let seed = 12;
  const random = () => (seed = (1664525 * seed + 1013904223) % 2 ** 32) / 2 ** 32;
  let view = fitted(PICTURE, BENCH);
  for (let step = 0; step < 500; step += 1) {
    const around = { left: random() * BENCH.width, top: random() * BENCH.height };
    view = zoomed(view, 0.7 + random() * 0.75, around, PICTURE, BENCH);
    view = panned(view, random() * 60 - 30, random() * 60 - 30, PICTURE, BENCH);
    const at = { x: random() * PICTURE.width, y: random() * PICTURE.height };
    const back = toPicture(view, toScreen(view, at));
    within(back.x, at.x, 1e-9);
    within(back.y, at.y, 1e-9);
  }
});

test('zooming keeps the place under the pointer', () => {
  const view = fitted(PICTURE, BENCH);
  const around = { left: 300, top: 200 };
  const before = toPicture(view, around);
  const after = toPicture(zoomed(view, 8, around, PICTURE, BENCH), around);
  within(after.x, before.x, 1e-9);
  within(after.y, before.y, 1e-9);
});

describe('limits', () => {
  test('zoom ends at 32 and at half of fit', () => {
    const fit = fitted(PICTURE, BENCH);
    const middle = { left: 380, top: 244 };
    expect(zoomed(fit, 1e6, middle, PICTURE, BENCH).zoom).toBe(LARGEST_ZOOM);
    expect(zoomed(fit, 1e-6, middle, PICTURE, BENCH).zoom).toBe(fit.zoom / 2);
  });

  test('the picture never leaves the bench', () => {
    const far = panned(fitted(PICTURE, BENCH), 1e6, -1e6, PICTURE, BENCH);
    expect(toScreen(far, { x: 0, y: 0 }).left).toBe(BENCH.width / 2);
    within(toScreen(far, { x: 0, y: PICTURE.height }).top, BENCH.height / 2, 1e-9);
  });

  test('a picture of one pixel and a bench of one pixel have a view', () => {
    expect(fitted({ width: 1, height: 1 }, { width: 1, height: 1 }).zoom).toBe(1);
  });
});

describe('two fingers', () => {
  const view = zoomed(fitted(PICTURE, BENCH), 6, { left: 300, top: 200 }, PICTURE, BENCH);
  const from = [
    { left: 300, top: 200 },
    { left: 420, top: 260 },
  ] as const;

  test('carry the places under them along, turned hands aside, to 1e-9 px', () => {
    const to = [
      { left: 280, top: 190 },
      { left: 460, top: 280 },
    ] as const;
    const next = pinched(view, from, to, PICTURE, BENCH);
    within(next.zoom / view.zoom, 1.5, 1e-12);
    for (const finger of [0, 1] as const) {
      const place = toPicture(view, from[finger]);
      const screen = toScreen(next, place);
      within(screen.left, to[finger].left, 1e-9);
      within(screen.top, to[finger].top, 1e-9);
    }
  });

  test('that come back where they were leave the picture where it was', () => {
    const to = [
      { left: 250, top: 180 },
      { left: 500, top: 300 },
    ] as const;
    const back = pinched(pinched(view, from, to, PICTURE, BENCH), to, from, PICTURE, BENCH);
    within(back.zoom, view.zoom, 1e-9);
    within(back.panLeft, view.panLeft, 1e-6);
    within(back.panTop, view.panTop, 1e-6);
  });

  test('on one place move the picture and do not break it', () => {
    const one = [from[0], from[0]] as const;
    const moved = pinched(view, one, [from[1], from[1]], PICTURE, BENCH);
    expect(moved.zoom).toBe(view.zoom);
    within(moved.panLeft - view.panLeft, 120, 1e-9);
  });
});

describe('a part of the picture', () => {
  const whole = { width: 1000, height: 500 };

  test('fills the bench and lies in its middle', () => {
    // 200 x 400 in 600 x 400: as it is, its middle (500, 250) at (300, 200).
    const view = fittedTo({ x: 400, y: 50, width: 200, height: 400 }, whole, { width: 600, height: 400 });
    expect(view).toEqual({ zoom: 1, panLeft: -200, panTop: -50 });
  });

  test('at the edge of the picture nothing lies beside the picture', () => {
    // The same part at the left edge: its middle would be at 300, and 200 px of nothing left of it.
    const view = fittedTo({ x: 0, y: 100, width: 200, height: 400 }, whole, { width: 600, height: 400 });
    expect(view).toEqual({ zoom: 1, panLeft: 0, panTop: -100 });
  });

  test('a picture that cannot fill the bench lies in its middle', () => {
    // 100 x 500 of 200 x 500 in 800 x 250: half as large, so 100 wide with 350 on each side.
    const view = fittedTo(
      { x: 0, y: 0, width: 100, height: 500 },
      { width: 200, height: 500 },
      { width: 800, height: 250 },
    );
    expect(view).toEqual({ zoom: 0.5, panLeft: 350, panTop: 0 });
  });
});
