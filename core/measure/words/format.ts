import { say } from '../../model/say.ts';
import { inFigures } from '../../model/language.ts';
import type { MeasuredReading, UncertaintySource, Unit } from '../../model/reading.ts';
import { clockOf } from '../../time/swing-clock.ts';
import type { ClockedClip } from '../../time/swing-clock.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { COVERAGE_FACTOR } from '../uncertainty/estimate.ts';
import { isShapeNumberOfUse } from '../doubts/of-use.ts';
import type { WantedRange } from '../goals/goals.ts';
import type { ShapeNumber } from '../readings/shape-number.ts';
import { isConverted, shownUnit, toShown } from './shown-units.ts';
import { SOURCE_WORDS } from './words.ts';

export {
  JUDGEMENT_MEANINGS,
  METHOD_TAGS,
  METHOD_WORDS,
  NOTE_TAGS,
  NOTE_WORDS,
  NOTE_WORDS_ON_STILLS,
  VERDICT_MEANINGS,
  VERDICT_WORDS,
  fullLabelOf,
  idleWords,
  labelOf,
  listed,
  missingWords,
} from './words.ts';

/** A number for people. The only place where numbers are rounded; what is stored and compared is never this. */
export interface Written {
  /** E.g. "−3.4". A real minus sign (U+2212); never "−0". */
  readonly value: string;
  /** Half of the 95 % interval (its coverage factor times u), e.g. "1.2". */
  readonly plusMinus: string;
  /** As it stands before people: "34.2° ± 1.4°", "−3.4 ± 1.2 cm", "12 ± 3 % of head box", "3.02 ± 0.05". */
  readonly text: string;
}

const UNIT_WORDS: Readonly<Record<Unit, string>> = {
  deg: '°',
  px: 'px',
  cm: 'cm',
  '% head box': say`% of head box`,
  '% shoulder width': say`% of shoulder width`,
  '% leg length': say`% of leg length`,
  'club lengths': say`club lengths`,
  ratio: '',
  s: 's',
  's on screen': say`s on screen`,
  'm/s': 'm/s',
};

/** A unit by itself, for a list to choose from or a sentence: "degrees", "cm", "ratio". */
export function unitInWords(unit: Unit): string {
  if (unit === 'deg') return say`degrees`;
  return UNIT_WORDS[unit] === '' ? say`ratio` : shownUnit(UNIT_WORDS[unit]);
}

const MOST_DECIMALS = 4;

/**
 * Decimals that an uncertainty deserves: two figures when it begins with 1 or 2, else one; never rounded to tens (the
 * GUM, 7.2.6, allows at most two figures). In 0..4.
 */
export function decimalsFor(plusMinus: number): number {
  if (!(plusMinus > 0)) return 1;
  const exponent = Math.floor(Math.log10(plusMinus));
  const lead = plusMinus / 10 ** exponent;
  // 2.96 would be written 3.0 with two figures: it counts as 3.
  const figures = lead < 2.95 ? 2 : 1;
  return Math.min(MOST_DECIMALS, Math.max(0, figures - 1 - exponent));
}

/** The most decimals that leave an uncertainty its two figures, which is all it may have (the GUM, 7.2.6). In 0..4. */
export function mostDecimalsFor(plusMinus: number): number {
  if (!(plusMinus > 0)) return MOST_DECIMALS;
  return Math.min(MOST_DECIMALS, Math.max(0, 1 - Math.floor(Math.log10(plusMinus))));
}

/** The number that people read, for sums that they can do again. */
export function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** The same of half of an interval: one that is there is never 0, but one of the last digit then. */
export function roundedHalf(half: number, decimals: number): number {
  return half === 0 ? 0 : rounded(Math.max(half, 10 ** -decimals), decimals);
}

function digits(value: number, decimals: number): string {
  const plain = Math.abs(value).toFixed(decimals);
  const text = inFigures(plain);
  return value < 0 && Number(plain) !== 0 ? `−${text}` : text;
}

function signedDigits(value: number, decimals: number): string {
  const text = digits(value, decimals);
  return value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/**
 * A number and half of its 95 % interval with so many decimals, by default as many as the ± deserves. Both are as they are
 * shown already (shown-units.ts): what is read is converted before it is rounded, so that sums come out in either units.
 */
export function write(
  value: number,
  half: number,
  unit: Unit,
  signed: boolean,
  decimals: number = decimalsFor(half),
): Written {
  const shown = signed ? signedDigits(value, decimals) : digits(value, decimals);
  const plusMinus = half === 0 ? '0' : digits(roundedHalf(half, decimals), decimals);
  const text = `${unit === 'deg' ? `${shown}°` : shown} ± ${inUnit(plusMinus, unit)}`;
  return { value: shown, plusMinus, text };
}

/**
 * A reading by itself in figures: digits follow the ±. Changes from address carry their sign. Where others of its kind stand
 * beside it, figures.ts says with how many digits.
 */
export function formatReading(reading: MeasuredReading): Written {
  return write(shownValue(reading), shownHalf(reading), reading.unit, reading.aspect === 'change');
}

/** The number of a reading in the units that are shown. */
export function shownValue({ value, unit }: { readonly value: number; readonly unit: Unit }): number {
  return toShown(value, unit);
}

/** What stands behind the ±, in the units that are shown. */
export function shownHalf(measured: { readonly u: number; readonly coverage: number; readonly unit: Unit }): number {
  return toShown(halfOf(measured), measured.unit);
}

/** What stands behind the ±: half of the 95 % interval. */
export function halfOf({ u, coverage }: { readonly u: number; readonly coverage: number }): number {
  return coverage * u;
}

/**
 * The numbers of one shape in figures, in their order; null where there is none of use. Those of one unit have one number of digits,
 * and a diameter is twice the radius that stands beside it. A given length (a known length) is written without ±.
 */
export function formatShapeNumbers(numbers: readonly ShapeNumber[]): readonly (Written | null)[] {
  const measured = numbers.filter((number) => number.state === 'measured').filter(isShapeNumberOfUse);
  const decimalsOf = (unit: Unit): number =>
    Math.min(...measured.flatMap((each) => (each.unit === unit && each.u > 0 ? [decimalsFor(shownHalf(each))] : [])));
  const radius = measured.find(({ id }) => id === 'radius');
  return numbers.map((number) => {
    if (number.state === 'missing' || !isShapeNumberOfUse(number)) return null;
    const { unit, u } = number;
    const value = shownValue(number);
    if (u > 0) {
      const decimals = decimalsOf(unit);
      const shown =
        number.id === 'diameter' && radius !== undefined ? 2 * rounded(shownValue(radius), decimals) : value;
      return write(shown, shownHalf(number), unit, false, decimals);
    }
    const given = digits(value, 1);
    return { value: given, plusMinus: '0', text: inUnit(given, unit) };
  });
}

/** A number of a reading's unit as somebody gave it, without needless zeros: "5°", "2.5 cm", "0.1". */
export function formatTyped(value: number, unit: Unit): string {
  const figures = isConverted(unit) ? typedIn(value, unit) : withoutZeros(digits(value, MOST_DECIMALS));
  return inUnit(figures, unit);
}

/** Decimals of a number that was typed in one unit and is shown in another: more would say more than anybody typed. */
const CONVERTED_DECIMALS = 2;

/** Its figures alone, as they would be typed again: "2.5", "−1". */
export function typedIn(value: number, unit: Unit): string {
  if (isConverted(unit)) return withoutZeros(digits(toShown(value, unit), CONVERTED_DECIMALS));
  return inFigures(String(value).replace('-', '−'));
}

function withoutZeros(figures: string): string {
  return /[.,]/.test(figures) ? figures.replace(/[.,]?0+$/, '') : figures;
}

/** A size without ±, in as many figures as an error has: "8°", "1.4 cm". */
export function formatSize(size: number, unit: Unit): string {
  const shown = toShown(size, unit);
  return formatValue(shown, unit, mostDecimalsFor(shown));
}

/** A number that is as it is shown already, with so many decimals. */
export function formatValue(value: number, unit: Unit, decimals: number): string {
  return inUnit(digits(value, decimals), unit);
}

function inUnit(figures: string, unit: Unit): string {
  return unit === 'deg' ? `${figures}°` : `${figures} ${shownUnit(UNIT_WORDS[unit])}`.trim();
}

/** The fewest decimals, from one on, that do not make two numbers one; 4 where none does. */
export function decimalsThatPart(one: number, other: number): number {
  let decimals = 1;
  while (decimals < MOST_DECIMALS && rounded(one, decimals) === rounded(other, decimals)) decimals += 1;
  return decimals;
}

/** A wanted range in figures, as the goals give it: "90°", "20° to 25°", "0° or more", "0 or less". 0 needs no unit. */
export function formatWanted({ from, to, unit }: Pick<WantedRange, 'from' | 'to' | 'unit'>): string {
  const limit = (value: number): string => (value === 0 && unit !== 'deg' ? '0' : formatTyped(value, unit));
  if (from === null) return to === null ? say`any` : say`${limit(to)} or less`;
  if (to === null) return say`${limit(from)} or more`;
  return from === to ? limit(from) : say`${limit(from)} to ${limit(to)}`;
}

/** Why a reading cannot be held against a range, where their units differ. */
export function otherUnitWords({ unit }: Pick<WantedRange, 'unit'>): string {
  return say`The goal is in ${unitInWords(unit)}, the reading is not.`;
}

/**
 * What a value means in words, or null where a plain number says it all: as its catalogue entry says, else the word of its
 * sign where the whole 95 % interval has it. `decimals`: those that the number itself is written with.
 */
export function meaningOf(reading: MeasuredReading, decimals: number = decimalsFor(shownHalf(reading))): string | null {
  const { meaning, sign } = CATALOGUE[reading.id];
  if (meaning !== undefined)
    return meaning(reading, {
      rounded: (value) => rounded(toShown(value, reading.unit), decimals),
      amount: (value) => inUnit(digits(toShown(value, reading.unit), decimals), reading.unit),
    });
  const [low, high] = reading.interval;
  if (sign === null || reading.aspect === 'change' || (low <= 0 && high >= 0)) return null;
  return reading.value > 0 ? sign.plus : sign.minus;
}

/** Two figures of an amount of error, which has no ± of its own: "1.2°", "0.45 px". */
export function formatAmount(amount: number, unit: Unit): string {
  const shown = toShown(amount, unit);
  const decimals = shown > 0 ? Math.min(MOST_DECIMALS, Math.max(0, 1 - Math.floor(Math.log10(shown)))) : 0;
  return inUnit(digits(shown, decimals), unit);
}

/**
 * A standard deviation of placings with its ±, in px: one of few degrees of freedom is unsure itself, u(s) = s / sqrt(2
 * freedom) (JCGM 100:2008, E.4.3). "2.4 ± 0.7 px".
 */
export function formatPlacing(sd: number, freedom: number): string {
  return formatSpread(sd, freedom, 'px');
}

/** The same for any amount that is a multiple of such a standard deviation, in its own unit: "4.1° ± 1.2°". */
export function formatSpread(amount: number, freedom: number, unit: Unit): string {
  const shown = toShown(amount, unit);
  return write(shown, halfOfSpread(shown, freedom), unit, false).text;
}

/** Half of the 95 % interval of an amount that rests on so few degrees of freedom. */
export function halfOfSpread(amount: number, freedom: number): number {
  return (COVERAGE_FACTOR * amount) / Math.sqrt(2 * freedom);
}

/** An intraclass correlation in two decimals: "0.97", "−0.10". One that is not whole is never written as 1.00. */
export function formatAgreement(icc: number): string {
  return digits(icc < 1 ? Math.min(icc, 0.99) : icc, 2);
}

/** What a number that is no reading is said in. Angles of a camera are degrees, told in radians. */
export type PlainUnit = 'deg' | 'm' | 'cm' | 'px' | 'ms' | 'cm a pixel';

/** Any number with its standard uncertainty, in figures as a reading is: "1.02 ± 0.04 m", "6° ± 1°". */
export function formatNumber(value: number, u: number, unit: PlainUnit, coverage = COVERAGE_FACTOR): Written {
  const half = toShown(coverage * u, unit);
  const decimals = decimalsFor(half);
  const shown = digits(toShown(value, unit), decimals);
  const plusMinus = digits(half, decimals);
  const text = unit === 'deg' ? `${shown}° ± ${plusMinus}°` : `${shown} ± ${plusMinus} ${shownUnit(unit)}`;
  return { value: shown, plusMinus, text };
}

/** A number in a sentence, where its ± would be in the way: in as many figures as that leaves, "about 39.8°". */
export function formatAbout(value: number, u: number, unit: PlainUnit): string {
  return say`about ${formatPlain(value, unit, decimalsFor(toShown(COVERAGE_FACTOR * u, unit)))}`;
}

/** A length or an angle without ±, to so many decimals: "39.8°", "12.4 px". */
export function formatPlain(value: number, unit: PlainUnit, decimals: number): string {
  const shown = digits(toShown(value, unit), decimals);
  return unit === 'deg' ? `${shown}°` : `${shown} ${shownUnit(unit)}`;
}

/**
 * When a frame of a clip comes, by the clip's one clock, to the millisecond: "0.601 s real time", "4.805 s on screen" where
 * the capture rate is not known. Times that are read from named frames run by the same clock.
 */
export function formatInstant(pts: number, clip: ClockedClip): string {
  const { secondsATick, runs } = clockOf(clip);
  return runs === 'real'
    ? say`${digits(pts * secondsATick, 3)} s real time`
    : say`${digits(pts * secondsATick, 3)} s on screen`;
}

/** A length in mm as it would be typed in cm or inches, to a tenth of a millimetre at most: "150", "48.2". */
export function typedLength(mm: number): string {
  return withoutZeros(inFigures(toShown(mm / 10, 'cm').toFixed(isConverted('cm') ? 3 : 2)));
}

/** A part of what a ± is made of, as words and figures: "placing", "± 1.2 cm". */
export interface WrittenPart {
  readonly source: UncertaintySource;
  readonly words: string;
  readonly text: string;
  /** Of the largest part, 0 to 1. */
  readonly share: number;
}

/** What the ± of a reading is made of, largest first, each part's ± by the reading's own coverage. */
export function formatBudget({ budget, coverage, unit }: MeasuredReading): readonly WrittenPart[] {
  const most = Math.max(...budget.map(({ u }) => u));
  return budget.map(({ source, u }) => {
    const half = toShown(coverage * u, unit);
    const figures = digits(half, decimalsFor(half));
    return { source, words: SOURCE_WORDS[source], text: `± ${inUnit(figures, unit)}`, share: u / most };
  });
}

/** What a difference so sure would show, for a hint: "A change of 8° or more would show." Two figures are enough. */
export function smallestWords({ shows, unit }: { readonly shows: number; readonly unit: Unit }): string {
  return say`A change of ${formatSize(shows, unit)} or more would show.`;
}
