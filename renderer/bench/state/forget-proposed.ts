import { followed } from './open-places.ts';
import { lookedThrough, proposals } from './open-proposals.ts';
import { proposedPoints } from './proposed-points.ts';

/** Drops all that was proposed of a clip: its frames have other numbers now, and what was found by the old ones misleads. */
export function forgetProposed(clipId: string): void {
  const without = <Each>(all: Readonly<Record<string, Each>>): Readonly<Record<string, Each>> =>
    Object.fromEntries(Object.entries(all).filter(([id]) => id !== clipId));
  proposals.update(without);
  lookedThrough.update(without);
  proposedPoints.update(without);
  followed.update(without);
}
