import { say } from '../../model/say.ts';
import type { UnitSystem } from '../../model/settings.ts';

/**
 * In which units people read and type. Inside the program everything is cm, m and m/s; here it becomes what is shown, and
 * back. Like a language, it is one for a whole process: set at its start and when the coach chooses, asked for nowhere else
 * than where numbers are written and read (format.ts, typed-length.ts).
 *
 * Exact by the international yard and pound agreement of 1959: 1 yd = 0.9144 m, so 1 in = 2.54 cm; 1 mile = 1760 yd, so
 * 1 mph = 1609.344 m / 3600 s = 0.44704 m/s.
 */
export const CM_PER_INCH = 2.54;
export const M_PER_YARD = 0.9144;
export const M_PER_SECOND_PER_MPH = 0.44704;

interface OtherUnit {
  /** How much of the unit inside the program one of these is. */
  readonly is: number;
  readonly word: string;
}

const IMPERIAL: ReadonlyMap<string, OtherUnit> = new Map([
  ['cm', { is: CM_PER_INCH, word: 'in' }],
  ['m', { is: M_PER_YARD, word: 'yd' }],
  ['m/s', { is: M_PER_SECOND_PER_MPH, word: 'mph' }],
  ['cm a pixel', { is: CM_PER_INCH, word: say`in a pixel` }],
]);

let shown: UnitSystem = 'metric';

export function showUnits(system: UnitSystem): void {
  shown = system;
}

function otherOf(unit: string): OtherUnit | undefined {
  return shown === 'imperial' ? IMPERIAL.get(unit) : undefined;
}

/** A number in a unit of the program, in the one that is shown for it. Angles, parts, ratios and times stay as they are. */
export function toShown(value: number, unit: string): number {
  const other = otherOf(unit);
  return other === undefined ? value : value / other.is;
}

/** The way back. */
export function fromShown(value: number, unit: string): number {
  const other = otherOf(unit);
  return other === undefined ? value : value * other.is;
}

/** The word that stands for a unit of the program: "cm" or "in". */
export function shownUnit(unit: string): string {
  return otherOf(unit)?.word ?? (unit === 'cm a pixel' ? say`cm a pixel` : unit);
}

/** Whether numbers in this unit are shown in another one now. */
export function isConverted(unit: string): boolean {
  return otherOf(unit) !== undefined;
}
