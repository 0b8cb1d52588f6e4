import type { Colour } from './surfaces.ts';

/** What the invented player wears on one day. */
export interface Clothes {
  readonly shirt: Colour;
  readonly collar: Colour;
  readonly trousers: Colour;
  readonly belt: Colour;
  readonly cap: Colour;
  readonly shoe: Colour;
  readonly sole: Colour;
}

function colour(red: number, green: number, blue: number, shine = 0): Colour {
  return { red, green, blue, shine };
}

export const SKIN = colour(214, 164, 132, 0.08);
export const HAIR = colour(74, 52, 38);
export const GLOVE = colour(240, 240, 238);
export const GRIP = colour(36, 36, 40);
export const STEEL = colour(196, 200, 206, 0.6);
export const IRON = colour(164, 168, 176, 0.7);
export const BALL = colour(250, 250, 250, 0.2);

/** Strong against grass, net and sky, and away from the two colours that tell then from now. */
export const CLOTHES: Readonly<Record<'then' | 'now', Clothes>> = {
  then: {
    shirt: colour(140, 32, 52),
    collar: colour(110, 22, 40),
    trousers: colour(196, 190, 176),
    belt: colour(60, 44, 34),
    cap: colour(238, 238, 234),
    shoe: colour(64, 58, 56),
    sole: colour(228, 226, 220),
  },
  now: {
    shirt: colour(236, 236, 232),
    collar: colour(206, 208, 212),
    trousers: colour(48, 58, 88),
    belt: colour(188, 180, 164),
    cap: colour(52, 62, 94),
    shoe: colour(236, 236, 238),
    sole: colour(90, 96, 108),
  },
};
