import { BODY_POINTS } from '../../model/body-points.ts';
import { say } from '../../model/say.ts';
import type { Correction } from '../../model/proposed-points.ts';
import { VIEWS } from '../../model/words.ts';
import type { View } from '../../model/words.ts';
import { formatPlain } from '../words/format.ts';
import { toldAt, toldByAll } from './learn-errors.ts';
import type { LearntError, ToldError } from './learn-errors.ts';
import { SWING_PLACE_LABELS, swingPlaceOf } from './swing-places.ts';

/** How far a proposed place may lie off, and whether that is assumed. `guess`: standard deviation, pixels. */
export function guessWords(guess: number, learnt: number | undefined): string {
  const off = pixelsWords(guess);
  if (learnt === undefined) return say`Such a place lies about ${off} off (one standard deviation, assumed).`;
  return learnt === 1
    ? say`Such a place lies about ${off} off (one standard deviation, learnt from 1 correction).`
    : say`Such a place lies about ${off} off (one standard deviation, learnt from ${String(learnt)} corrections).`;
}

/** What a list says of one point: where in the swing, how far proposals lie off there, from what that is known, and what is taken out. */
export interface LearntInWords {
  readonly where: string;
  readonly off: string;
  readonly from: string;
  readonly offset: string;
}

/** As a list has them: a view after the other, points in the order of a guided run. */
export function inListOrder(errors: readonly LearntError[]): readonly LearntError[] {
  const place = ({ view, point }: LearntError): number =>
    VIEWS.indexOf(view) * BODY_POINTS.length + BODY_POINTS.indexOf(point);
  return errors.toSorted((one, other) => place(one) - place(other));
}

/**
 * Places in the swing with an error of their own, in its order, and then what counts at the others at the most. `of`: the corrections of this
 * point in this view, at least one.
 */
export function learntInWords(error: LearntError, of: readonly Correction[]): readonly LearntInWords[] {
  const { learnt, lessons, view } = error;
  const own = error.at.filter((each) => each.learnt !== null);
  const where = own.length === 0 ? say`Where you corrected it` : say`Elsewhere`;
  if (learnt === null) {
    const from =
      lessons === 1 ? say`assumed; corrected in 1 lesson` : say`assumed; corrected in ${String(lessons)} lessons`;
    return [{ where, off: pixelsWords(middleOf(of.map(({ proposed }) => proposed.assumed))), from, offset: '' }];
  }
  const byAll = toldByAll(error, own.length === 0 ? lessons : 0);
  return [
    ...own.map(({ place, lessons: here }) => {
      const at = of.filter(({ checkpoint }) => swingPlaceOf(checkpoint) === place);
      return { where: SWING_PLACE_LABELS[place], ...toldWords(toldAt(error, place), here, at, view) };
    }),
    { where, ...toldWords(byAll, lessons, of, view) },
  ];
}

/** `of`: the corrections that told it. */
function toldWords(told: ToldError | null, lessons: number, of: readonly Correction[], view: View) {
  if (told === null) throw new Error('an error that is not learnt has no words');
  const assumed = middleOf(of.map(({ proposed }) => proposed.assumed));
  const size = middleOf(of.map(({ proposed }) => proposed.size));
  const { ratio, offset, corrections } = told;
  return {
    off: say`${pixelsWords(assumed * ratio)} (${pixelsWords(assumed)} assumed)`,
    from: say`${String(corrections)} corrections in ${String(lessons)} lessons`,
    offset: [alongWords((offset.x * size) / 1000, view), offset.y === 0 ? [] : downWords((offset.y * size) / 1000)]
      .flat()
      .join(', '),
  };
}

function alongWords(pixels: number, view: View): string | readonly [] {
  if (pixels === 0) return [];
  const by = pixelsWords(Math.abs(pixels));
  if (view === 'face-on') return pixels > 0 ? say`${by} toward the target` : say`${by} away from the target`;
  return pixels > 0 ? say`${by} toward the ball` : say`${by} away from the ball`;
}

const downWords = (pixels: number): string =>
  pixels > 0 ? say`${pixelsWords(pixels)} down` : say`${pixelsWords(-pixels)} up`;

function middleOf(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  return sorted[sorted.length >> 1] ?? 0;
}

const pixelsWords = (pixels: number): string => formatPlain(pixels, 'px', pixels < 3 ? 1 : 0);
