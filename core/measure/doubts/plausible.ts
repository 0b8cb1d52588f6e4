import type { MeasuredReading, ReadingId, ReadingKey, Unit } from '../../model/reading.ts';
import type { Checkpoint, View } from '../../model/words.ts';

/** In the reading's own unit and sign; both limits belong to it. */
export interface PlausibleRange {
  readonly id: ReadingId;
  readonly unit: Unit;
  readonly aspect: MeasuredReading['aspect'];
  /** null = every view that the reading is made in. */
  readonly view: View | null;
  /** null = every checkpoint that the reading is made at. */
  readonly at: readonly Checkpoint[] | null;
  readonly from: number;
  readonly to: number;
}

function range(id: ReadingId, unit: Unit, from: number, to: number, more: Partial<PlausibleRange> = {}) {
  return { id, unit, aspect: 'value', view: null, at: null, from, to, ...more } as const satisfies PlausibleRange;
}

/**
 * What a reading can be in a real swing of anybody, put wide on purpose. It is no norm and no aim, and says nothing about
 * a swing that lies inside it: a number far outside mostly means that two points were swapped or a frame was misnamed,
 * and then the coach is asked. All limits are ours; tests hold them against a published table of joint angles of real
 * swings. A reading, unit, view or checkpoint that is not named can be anything: shoulders seen along their own line
 * tilt by any angle, and pixels and seconds on screen depend on the clip.
 */
export const PLAUSIBLE: readonly PlausibleRange[] = [
  range('back-incline', 'deg', -20, 85),
  range('neck-over-back', 'deg', -70, 100),
  range('shoulder-to-spine', 'deg', 20, 160),
  range('shoulder-line', 'deg', -65, 65, { view: 'face-on', at: ['address', 'impact'] }),
  range('hip-line', 'deg', -50, 50),
  range('hip-line', 'deg', -60, 60, { aspect: 'change' }),
  range('lead-knee', 'deg', 80, 180),
  range('lead-knee', 'deg', -80, 80, { aspect: 'change' }),
  range('trail-knee', 'deg', 80, 180),
  range('trail-knee', 'deg', -80, 80, { aspect: 'change' }),
  range('hip-rise', 'cm', -50, 50),
  range('hip-rise', '% leg length', -60, 60),
  range('hip-depth', 'cm', -60, 60),
  range('hip-depth', '% leg length', -70, 70),
  range('shaft-incline', 'deg', 20, 90),
  range('head-shift', 'cm', -60, 60),
  range('head-shift', '% head box', -300, 300),
  range('head-rise', 'cm', -50, 60),
  range('head-rise', '% head box', -250, 300),
  range('head-box', 'cm', -25, 75),
  range('head-centre-box', 'cm', -25, 60),
  range('upper-centre-shift', 'cm', -60, 70),
  range('upper-centre-shift', '% shoulder width', -170, 200),
  range('lower-centre-shift', 'cm', -50, 60),
  range('lower-centre-shift', '% shoulder width', -140, 170),
  range('side-tilt', 'deg', -60, 60),
  range('elbow-gap', 'ratio', 0.05, 5),
  range('stance-width', 'cm', 2, 120),
  range('stance-width', '% shoulder width', 10, 300),
  range('club-radius', 'ratio', 0.4, 1.6),
  range('backswing', 's', 0.25, 3),
  // From memory, no source at hand: what players of all kinds take. Outside of it the capture rate is mostly wrong.
  range('downswing', 's', 0.18, 0.4),
  range('tempo', 'ratio', 0.8, 8),
];

/** The range that a reading is held against, or null where any value can be. */
export function plausibleRange(reading: ReadingKey & { readonly unit: Unit }): PlausibleRange | null {
  const { id, unit, aspect, view, checkpoint } = reading;
  const fits = (one: PlausibleRange) =>
    one.id === id &&
    one.unit === unit &&
    one.aspect === aspect &&
    (one.view === null || one.view === view) &&
    (one.at === null || one.at.includes(checkpoint));
  return PLAUSIBLE.find(fits) ?? null;
}

/** What the coach is then asked: only the coach can see whether it is so. */
export const IMPLAUSIBLE_QUESTION = 'Is this right? Two of its points may be swapped, or its frame misnamed.';

/** The same of a time: what turns it into seconds of the swing is the first thing to look at. */
export const TIME_QUESTION =
  'Is this right? The capture rate may be wrong, the clip may play at another speed, or a frame may be misnamed.';

/** What the coach is asked of a reading, or null where there is nothing to ask. */
export function questionOf(reading: MeasuredReading): string | null {
  if (!isImplausible(reading)) return null;
  return reading.unit === 's' ? TIME_QUESTION : IMPLAUSIBLE_QUESTION;
}

/** Whether the coach should be asked "Is this right?": the reading with all of its ± lies outside of what can be. */
export function isImplausible(reading: MeasuredReading): boolean {
  const possible = plausibleRange(reading);
  const [low, high] = reading.interval;
  return possible !== null && (high < possible.from || low > possible.to);
}
