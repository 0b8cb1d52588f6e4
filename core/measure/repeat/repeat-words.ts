import { lowered, say, loweredFirst } from '../../model/say.ts';
import { BODY_POINT_INFO } from '../../model/body-points.ts';
import type { Goals } from '../../model/goals.ts';
import type { RepeatFrame } from '../../model/repeat-check.ts';
import { VIEW_LABELS } from '../../model/words.ts';
import { formatAbout, formatPlain, formatSpread, formatWanted, halfOfSpread, labelOf } from '../words/format.ts';
import { toleranceOf } from '../goals/goals.ts';
import { PLACING_LINES } from '../uncertainty/placing.ts';
import { FINEST_PLACING, placingSpreads, pooledPlacing } from './placing-spread.ts';
import type { ReadingRepeat } from './reading-repeats.ts';
import type { Spread } from './within-subject.ts';

/**
 * Of points that scatter alike across and up, with standard deviation s each way, 95 % lie within this many s of their
 * middle: sqrt(-2 ln 0.05), the quantile of the Rayleigh distribution.
 */
export const WITHIN_95 = Math.sqrt(-2 * Math.log(0.05));

/** The player that a scatter is told on: 175 cm tall, over three quarters of the picture's height. Assumed, ours. */
const PLAYER_CM = 175;
const PLAYER_PART = 0.75;
const CM_PER_PX = PLAYER_CM / (PLAYER_PART * PLACING_LINES);

/** How far clicks scatter, in sentences: all body points, then the steadiest and the widest. Empty when nothing repeats. */
export function scatterInWords(frames: readonly RepeatFrame[]): readonly string[] {
  const pooled = pooledPlacing(frames);
  if (pooled === null) return [];
  const spreads = placingSpreads(frames).toSorted((one, other) => one.sd - other.sd);
  const [steadiest, widest] = [spreads[0], spreads.at(-1)];
  const all = say`19 of 20 of your clicks land within ${reachIn(pooled, 'px')} of the middle, in a picture ${String(PLACING_LINES)} lines high: ${reachIn(pooled, 'cm')} on a player ${formatPlain(PLAYER_CM, 'cm', 0)} tall who fills three quarters of it.`;
  if (steadiest === undefined || widest === undefined || steadiest === widest) return [all];
  return [
    all,
    say`Your steadiest point is ${nameOf(steadiest)}: ${reachIn(steadiest, 'px')}. The widest is ${nameOf(widest)}: ${reachIn(widest, 'px')}, or ${reachIn(widest, 'cm')} on that player.`,
  ];
}

function nameOf({ point }: { readonly point: keyof typeof BODY_POINT_INFO }): string {
  return lowered(BODY_POINT_INFO[point].label);
}

/** How far 19 of 20 clicks reach, with the figures that its own u, s / sqrt(2 freedom) of s, leaves (JCGM 100, E.4.3). */
function reachIn({ sd, freedom }: Spread, unit: 'px' | 'cm'): string {
  const reach = WITHIN_95 * Math.max(sd, FINEST_PLACING) * (unit === 'px' ? 1 : CM_PER_PX);
  return formatAbout(reach, reach / Math.sqrt(2 * freedom), unit);
}

/** By how much readings must differ to count, one sentence a unit: the finest, and the coarsest where there are two. */
export function changesInWords(repeats: readonly ReadingRepeat[]): readonly string[] {
  const units = [...new Set(repeats.map(({ unit }) => unit))];
  return units.flatMap((unit) => {
    const inOrder = repeats
      .filter((repeat) => repeat.unit === unit)
      .toSorted((one, other) => one.smallestChange - other.smallestChange);
    const [finest, coarsest] = [inOrder[0], inOrder.at(-1)];
    if (finest === undefined || coarsest === undefined) return [];
    const first = say`${capital(repeatName(finest))}: anything under ${changeOf(finest)} may just be your clicking`;
    return [finest === coarsest ? `${first}.` : say`${first}; ${repeatName(coarsest)}: under ${changeOf(coarsest)}.`];
  });
}

/**
 * Which readings repeat well enough for the goals. As everywhere, a side is taken only with the whole interval: the
 * smallest change that counts lies within the tolerance, or past it, with all of its ±; else nobody can tell yet.
 */
export function enoughInWords(repeats: readonly ReadingRepeat[], goals: Goals): readonly string[] {
  const groups = { enough: [] as string[], short: [] as string[], unsure: [] as string[], open: 0 };
  for (const repeat of repeats) {
    const { smallestChange, freedom, unit } = repeat;
    const tolerance = toleranceOf(goals, repeat.id, repeat.aspect, unit);
    const half = halfOfSpread(smallestChange, freedom);
    const facts = say`${repeatName(repeat)} (${changeOf(repeat)}, tolerance ${amountOf(tolerance ?? 0, repeat)})`;
    if (tolerance === null) groups.open += 1;
    else if (smallestChange + half <= tolerance) groups.enough.push(repeatName(repeat));
    else if (smallestChange - half > tolerance) groups.short.push(facts);
    else groups.unsure.push(facts);
  }
  const { enough, short, unsure, open } = groups;
  const lines = [
    [enough, say`Repeatable enough for your goals: ${list(enough)}.`],
    [short, say`Not repeatable enough, the clicks alone go past the tolerance of your goals: ${list(short)}.`],
    [unsure, say`Can't tell yet, a check with more frames would: ${list(unsure)}.`],
  ] as const;
  const without =
    open === 1
      ? say`One reading has no tolerance in your goals to judge by.`
      : say`${open} readings have no tolerance in your goals to judge by.`;
  return [...lines.flatMap(([names, line]) => (names.length === 0 ? [] : [line])), ...(open === 0 ? [] : [without])];
}

/** Names that have commas of their own. */
function list(names: readonly string[]): string {
  return names.join('; ');
}

/** The name of a reading with its view, as in the middle of a sentence: "back incline, down the line". */
export function repeatName(repeat: ReadingRepeat): string {
  const name = `${labelOf(repeat)}, ${lowered(VIEW_LABELS[repeat.view])}`;
  return loweredFirst(name);
}

/** The same as it begins a line. */
export function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

function changeOf({ smallestChange, freedom, unit }: ReadingRepeat): string {
  return formatSpread(smallestChange, freedom, unit);
}

function amountOf(amount: number, { unit }: ReadingRepeat): string {
  return formatWanted({ from: amount, to: amount, unit });
}
