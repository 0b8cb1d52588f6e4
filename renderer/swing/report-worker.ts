import { measure, type Measured, type ReportSource } from '../../core/report/lesson-report.ts';
import type { MarkedClip, MarkedSwing } from '../../core/model/swing.ts';

/** The thread that reads and compares, which would hold the hand up for a tenth of a second. Page's end: measuring.ts. */

/** A value of the page's with the number that the page knows it by: what has the same number is the same value. */
export interface Numbered<Value> {
  readonly number: number;
  readonly value: Value;
}

export interface ToMeasure {
  readonly now: NumberedSwing;
  readonly then: NumberedSwing | null;
  readonly goals: Numbered<ReportSource['goals']>;
  readonly placing: Numbered<NonNullable<ReportSource['placing']>>;
}
export interface NumberedSwing extends Omit<MarkedSwing, 'clips' | 'besides'> {
  readonly clips: readonly Numbered<MarkedClip>[];
  readonly besides: readonly { readonly label: string; readonly clips: readonly Numbered<MarkedClip>[] }[];
}

export type Answer = { readonly measured: Measured } | { readonly error: string };

/** Of the last order. What was read from a clip goes with the clip, so the same number must be the same object here too. */
let known = new Map<number, unknown>();

self.addEventListener('message', ({ data }: MessageEvent<ToMeasure>) => {
  const kept = new Map<number, unknown>();
  const same = <Value>({ number, value }: Numbered<Value>): Value => {
    // What stands under a number came under it.
    const found = (known.has(number) ? known.get(number) : value) as Value;
    kept.set(number, found);
    return found;
  };
  const swing = (each: NumberedSwing): MarkedSwing => ({
    ...each,
    clips: each.clips.map(same),
    besides: each.besides.map(({ label, clips }) => ({ label, clips: clips.map(same) })),
  });
  let answer: Answer;
  try {
    const { now, then, goals, placing } = data;
    answer = {
      measured: measure({
        ...{ now: swing(now), then: then === null ? null : swing(then) },
        ...{ goals: same(goals), placing: same(placing) },
      }),
    };
  } catch (cause) {
    answer = { error: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
  known = kept;
  self.postMessage(answer);
});
