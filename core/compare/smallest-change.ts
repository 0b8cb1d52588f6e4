import { ASSUMED_SET_UP } from '../measure/camera/set-up-errors.ts';
import { coverageFactor, effectiveFreedom } from '../measure/uncertainty/freedom.ts';
import { smallestShown } from '../measure/uncertainty/levels.ts';
import { ASSUMED_PLACING } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import type { MeasuredReading } from '../model/reading.ts';
import { WORTH_OF_ASSUMED } from './scatter-ensemble.ts';
import { scatterIn } from './player-scatter.ts';

/** Swings a lesson for which it is told what they would give. */
const THREE = 3;

export interface SmallestChange {
  /** Between lessons of one swing each, in the reading's unit, > 0. */
  readonly one: number;
  /** Between lessons of three. */
  readonly three: number;
}

/**
 * The smallest change between two lessons that would show, 4 times of 5, if the other lesson's swing were read as surely as
 * this one: the honest size of the measurement, before there is anything to compare. The camera is set up anew, what one coach
 * always does with one player cancels, and the player's swings lie apart by the assumed scatter. null for what is never
 * compared: pixels, and times on screen.
 */
export function smallestChange(
  reading: MeasuredReading,
  placing: PlacingErrors = ASSUMED_PLACING,
): SmallestChange | null {
  if (reading.unit === 'px' || reading.unit === 's on screen') return null;
  const squareOf = (by: 'player' | 'day'): number =>
    reading.shared.reduce((sum, each) => sum + (each.by === by ? each.part ** 2 : 0), 0);
  const [day, player] = [squareOf('day'), squareOf('player')];
  const anew = Math.max(0, reading.u ** 2 - day - player);
  const scatter = scatterIn(reading, (placing.setUp ?? ASSUMED_SET_UP).scatter) ** 2;
  const single = { u: Math.sqrt(2 * scatter), freedom: WORTH_OF_ASSUMED };
  const rest = { u: Math.sqrt(2 * (day + anew)), freedom: Infinity };
  const several = { u: Math.sqrt((2 * (scatter + anew)) / THREE), freedom: WORTH_OF_ASSUMED + 2 * (THREE - 1) };
  const camera = { u: Math.sqrt(2 * day), freedom: Infinity };
  return {
    one: shows([single, rest], reading.coverage),
    three: shows([several, camera], 0),
  };
}

/** `least`: the coverage that errors known from few repeats need. */
function shows(parts: Parameters<typeof effectiveFreedom>[0], least: number): number {
  const u = Math.hypot(...parts.map((part) => part.u));
  return smallestShown(u, Math.max(least, coverageFactor(effectiveFreedom(parts))));
}
