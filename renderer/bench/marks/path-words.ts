import { say } from '../../../core/model/say.ts';
import type { LostWhy } from '../../../core/model/followed.ts';
import type { PathSubject } from '../../../core/model/mark.ts';

export const SUBJECT_LABELS: Readonly<Record<PathSubject, string>> = {
  clubhead: say`Clubhead`,
  hands: say`Hands`,
  head: say`Head`,
  ball: say`Ball`,
};

export const PATH_TITLES: Readonly<Record<PathSubject, string>> = {
  clubhead: say`Path of the clubhead`,
  hands: say`Path of the hands`,
  head: say`Path of the head`,
  ball: say`Path of the ball`,
};

/** Why it is not followed on, as the end of a sentence. */
export const LOST_WORDS: Readonly<Record<LostWhy, string>> = {
  'out of the picture': say`it leaves the picture`,
  'nothing to hold on to': say`too little is seen of it`,
  'looks like nothing there': say`nothing there looks like it`,
  'not the same way back': say`it is not told apart from what is beside it`,
};

/** How many places a path has and on which frames. `numbers`: frame numbers in rising order, each once. */
export function placesInWords(numbers: readonly number[]): string {
  if (numbers.length === 0) return say`No place yet.`;
  if (numbers.length === 1) return say`1 place, on frame ${String(numbers[0])}.`;
  return say`${String(numbers.length)} places, on frames ${listed(spansOf(numbers).map(spanInWords))}.`;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Numbers that follow one another, put together. */
function spansOf(numbers: readonly number[]): readonly Span[] {
  const spans: Span[] = [];
  for (const number of numbers) {
    const last = spans.at(-1);
    if (last?.to === number - 1) spans[spans.length - 1] = { from: last.from, to: number };
    else spans.push({ from: number, to: number });
  }
  return spans;
}

function spanInWords({ from, to }: Span): string {
  if (from === to) return String(from);
  return to === from + 1 ? `${String(from)}, ${String(to)}` : say`${from} to ${to}`;
}

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : say`${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}
