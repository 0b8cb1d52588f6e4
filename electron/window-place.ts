import type { Rectangle } from 'electron';
import * as v from 'valibot';

/** Where the window stood when it was last closed or moved, in the system's own pixels. */
export interface WindowPlace extends Rectangle {
  readonly maximised: boolean;
}

const whole = v.pipe(v.number(), v.integer(), v.minValue(-100_000), v.maxValue(100_000));
const place: v.GenericSchema<unknown, WindowPlace> = v.object({
  ...{ x: whole, y: whole, width: whole, height: whole },
  maximised: v.boolean(),
});

/** So much of the window's top must lie on a screen, so that a hand can take it: width and height in pixels. */
const HANDLE = { width: 120, height: 40 } as const;

/** What the file says; null where it says nothing of use. */
export function windowPlaceOf(text: string): WindowPlace | null {
  try {
    const read = v.safeParse(place, JSON.parse(text));
    return read.success ? read.output : null;
  } catch {
    return null;
  }
}

/**
 * The place on the screens that are there now, each given by what of it programs may use: no larger than the one that it
 * lies on. Null where nobody could take hold of the window there, so that it opens as usual.
 */
export function placeOnScreens(wanted: WindowPlace, screens: readonly Rectangle[]): WindowPlace | null {
  const handle = { ...wanted, height: HANDLE.height };
  const on = screens.find((screen) => {
    const across = Math.min(screen.x + screen.width, handle.x + handle.width) - Math.max(screen.x, handle.x);
    return across >= HANDLE.width && handle.y >= screen.y && handle.y + HANDLE.height <= screen.y + screen.height;
  });
  if (on === undefined) return null;
  return { ...wanted, width: Math.min(wanted.width, on.width), height: Math.min(wanted.height, on.height) };
}
