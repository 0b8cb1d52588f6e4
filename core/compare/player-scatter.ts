import type { SetUpErrors } from '../measure/camera/set-up-errors.ts';
import type { MeasuredReading, ReadingId } from '../model/reading.ts';

/** Metres of the lengths that others are stated as parts of, roughly those of anybody. */
const HEAD_BOX = 0.24;
const SHOULDERS = 0.38;
const LEG = 0.85;
const CLUB = 0.95;
/** From shoulder to clubhead: what the ratio of a radius is a part of. */
const RADIUS = 1.4;
/** Seconds of a downswing, its speed at the end in m/s, and the backswing as its multiple, from takeaway. */
const DOWNSWING = 0.25;
const USUAL_SPEED = 35;
const USUAL_TEMPO = 2;

/**
 * How far a player's own swings lie apart in a reading's unit, one standard deviation, as long as nothing measured it: what is
 * stated (set-up-errors.ts), brought to the unit by lengths and times that are roughly anybody's. Assumed, ours.
 */
export function scatterIn(
  { id, unit }: Pick<MeasuredReading, 'id' | 'unit'>,
  { degrees, metres, seconds }: SetUpErrors['scatter'],
): number {
  switch (unit) {
    case 'deg':
      return degrees;
    case 'cm':
      return 100 * metres;
    case '% head box':
      return (100 * metres) / HEAD_BOX;
    case '% shoulder width':
      return (100 * metres) / SHOULDERS;
    case '% leg length':
      return (100 * metres) / LEG;
    case 'club lengths':
      return metres / CLUB;
    case 'ratio':
      return id === 'tempo' ? (USUAL_TEMPO * seconds) / DOWNSWING : metres / RADIUS;
    case 's':
    case 's on screen':
      return seconds;
    case 'm/s':
      return (USUAL_SPEED * seconds) / DOWNSWING;
    case 'px':
      return 0;
  }
}

/** Made of a whole path, whose scatter has little to do with that of single places. */
const OF_ARCS: readonly ReadingId[] = ['arc-radius', 'low-point', 'arc-centre-shift', 'clubhead-speed'];

/** Which of the stated scatters a reading's is: those of one kind are right or wrong together. */
export function scatterKind({ id, unit }: Pick<MeasuredReading, 'id' | 'unit'>): keyof SetUpErrors['scatter'] | 'arcs' {
  if (OF_ARCS.includes(id)) return 'arcs';
  if (unit === 'deg') return 'degrees';
  return unit === 's' || unit === 's on screen' || id === 'tempo' ? 'seconds' : 'metres';
}
