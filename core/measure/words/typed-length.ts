import { CM_PER_INCH, M_PER_SECOND_PER_MPH, M_PER_YARD, fromShown } from './shown-units.ts';

/** What one of a typed unit is in mm. The marks of feet and inches come as typewriters and as printers have them. */
const MM: readonly (readonly [RegExp, number])[] = [
  [/^(?:mm|millimet(?:re|er)s?)$/, 1],
  [/^(?:cm|centimet(?:re|er)s?)$/, 10],
  [/^(?:m|met(?:re|er)s?)$/, 1000],
  [/^(?:in|inch|inches|"|″|”|'')$/, 10 * CM_PER_INCH],
  [/^(?:ft|foot|feet|'|′|’)$/, 120 * CM_PER_INCH],
  [/^(?:yd|yds|yards?)$/, 1000 * M_PER_YARD],
];

const NUMBER = String.raw`\d+(?:[.,]\d*)?|[.,]\d+`;
const FEET_AND_INCHES = new RegExp(
  String.raw`^(${NUMBER})\s*(?:ft|feet|foot|'|′|’)\s*(${NUMBER})\s*(?:in|inch|inches|"|″|”|'')?$`,
);
const ONE_UNIT = new RegExp(String.raw`^(${NUMBER})\s*(\D*)$`);

/**
 * A length as people type it, in mm: "46 in", "46\"", "3 ft 10 in", "117 cm", "1.17 m", in whichever units are shown. A bare
 * number is in the unit that is shown for cm. A comma or a point before the decimals, any minus sign. null: no length.
 */
export function readLength(text: string): number | null {
  const plain = text.trim().toLowerCase().replace('−', '-');
  const [sign, size] = plain.startsWith('-') ? [-1, plain.slice(1).trim()] : [1, plain];
  const both = FEET_AND_INCHES.exec(size);
  if (both !== null) return sign * 10 * CM_PER_INCH * (12 * numberOf(both[1]) + numberOf(both[2]));
  const [, figures, unit = ''] = ONE_UNIT.exec(size) ?? [];
  if (figures === undefined) return null;
  if (!Number.isFinite(numberOf(figures))) return null;
  if (unit === '') return sign * 10 * fromShown(numberOf(figures), 'cm');
  const found = MM.find(([words]) => words.test(unit.trim().replace(/\.$/, '')));
  return found === undefined ? null : sign * found[1] * numberOf(figures);
}

/** What one of a typed unit of speed is in m/s. */
const SPEEDS: Readonly<Record<string, number>> = {
  'm/s': 1,
  mph: M_PER_SECOND_PER_MPH,
  'km/h': 1 / 3.6,
  kmh: 1 / 3.6,
};

/**
 * A number as people type it for a limit in `unit`, in that unit: "25", "−2,5", and with a unit of its own where `unit` is a
 * length or a speed: "2 in", "95 mph". null: no such number.
 */
export function readTyped(text: string, unit: string): number | null {
  if (unit === 'cm') {
    const mm = readLength(text);
    return mm === null ? null : mm / 10;
  }
  const [, figures, word = ''] = /^([-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([a-z/°%]*)$/i.exec(text.trim()) ?? [];
  if (figures === undefined) return null;
  const number = numberOf(figures);
  if (!Number.isFinite(number)) return null;
  if (word === '') return fromShown(number, unit);
  if (unit === 'm/s') {
    const speed = SPEEDS[word.toLowerCase()];
    return speed === undefined ? null : speed * number;
  }
  return (unit === 'deg' && word === '°') || word === unit ? number : null;
}

function numberOf(figures = ''): number {
  return Number(figures.replace(',', '.').replace('−', '-'));
}
