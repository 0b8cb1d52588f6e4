import { say } from '../../model/say.ts';
import type { Correction } from '../../model/proposed-points.ts';
import type { View } from '../../model/words.ts';
import { formatPlain } from '../words/format.ts';
import { LEAST_LESSONS, ratioToTell } from './learn-errors.ts';
import type { LearntError } from './learn-errors.ts';

/** How far a proposed place may lie off, and whether that is assumed. `guess`: standard deviation, pixels. */
export function guessWords(guess: number, learnt: number | undefined): string {
  const off = pixelsWords(guess);
  if (learnt === undefined) return say`Such a place lies about ${off} off (one standard deviation, assumed).`;
  return learnt === 1
    ? say`Such a place lies about ${off} off (one standard deviation, learnt from 1 correction).`
    : say`Such a place lies about ${off} off (one standard deviation, learnt from ${String(learnt)} corrections).`;
}

/** What a list says of one point: how far proposals lie off on the coach's own clips, from what that is known, and what is taken out. */
export interface LearntInWords {
  readonly off: string;
  readonly from: string;
  readonly offset: string;
}

/** `of`: the corrections of this point in this view, at least one. */
export function learntInWords(error: LearntError, of: readonly Correction[]): LearntInWords {
  const assumed = middleOf(of.map(({ proposed }) => proposed.assumed));
  const { learnt, lessons, corrections, view } = error;
  if (learnt === null)
    return {
      off: pixelsWords(assumed),
      from: say`assumed; corrected in ${String(lessons)} of ${String(LEAST_LESSONS)} lessons`,
      offset: '',
    };
  const size = middleOf(of.map(({ proposed }) => proposed.size));
  return {
    off: say`${pixelsWords(assumed * ratioToTell(learnt))} (${pixelsWords(assumed)} assumed)`,
    from: say`learnt from ${String(corrections)} corrections in ${String(lessons)} lessons`,
    offset: [
      alongWords((learnt.offset.x * size) / 1000, view),
      learnt.offset.y === 0 ? [] : downWords((learnt.offset.y * size) / 1000),
    ]
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
