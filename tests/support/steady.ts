import type { SetUpErrors } from '../../core/measure/camera/set-up-errors.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../../core/measure/uncertainty/placing.ts';

/** A camera that stands as it should, too far off for depth to matter, joints that nobody disagrees about, one swing like another. */
export const STEADY_SET_UP: SetUpErrors = {
  ...{ yaw: 0, roll: 0, height: 0, lens: 0, plane: 0, depth: 0 },
  distance: { value: 1e12, u: 0 },
  definition: { shared: 0, anew: 0 },
  scatter: { degrees: 0, metres: 0, seconds: 0 },
};

/** What is left of a ± is then what clicks and marks make of it: for tests of that part alone. */
export const STEADY: PlacingErrors = { ...ASSUMED_PLACING, setUp: STEADY_SET_UP };
