import type { TalkSpan } from '../model/talk.ts';

/** Milliseconds over which the loudness is taken. */
export const LOUDNESS_STEP_MS = 20;

/** A pause shorter than this belongs to speech, ms. */
const SHORTEST_SILENCE = 700;
/** What stays of a silence before and after the words, so that no breath and no last consonant is cut, ms. */
const LEFT = 200;
/** So far below the loud parts is silence, as a ratio of RMS: 30 dB. */
const BELOW_SPEECH = 10 ** (-30 / 20);
/** And so quiet is silence in any case: -60 dB of full scale. */
const QUIETEST = 10 ** (-60 / 20);
/** Loud: what a twentieth of all steps lie above. */
const LOUD_PART = 0.95;

/**
 * The RMS of samples within -1..1, a number each LOUDNESS_STEP_MS; the last step may be shorter. `sampleRate` a second.
 */
export function loudnessOf(samples: Float32Array, sampleRate: number): Float32Array {
  const step = Math.round((sampleRate * LOUDNESS_STEP_MS) / 1000);
  const loudness = new Float32Array(Math.ceil(samples.length / step));
  for (let index = 0; index < loudness.length; index++) {
    const end = Math.min(samples.length, (index + 1) * step);
    let sum = 0;
    for (let at = index * step; at < end; at++) sum += (samples[at] ?? 0) ** 2;
    loudness[index] = Math.sqrt(sum / (end - index * step));
  }
  return loudness;
}

/**
 * What could be cut because nobody speaks: whole milliseconds, in order. `loudness` as `loudnessOf` gives it, of the whole
 * talk-through. Empty where nothing at all is heard.
 */
export function silencesIn(loudness: Float32Array): readonly TalkSpan[] {
  const loud = Float32Array.from(loudness).sort()[Math.floor((loudness.length - 1) * LOUD_PART)] ?? 0;
  if (loud <= QUIETEST) return [];
  const limit = Math.max(QUIETEST, loud * BELOW_SPEECH);
  const silences: TalkSpan[] = [];
  let start = 0;
  const close = (end: number): void => {
    // At the very beginning and end nobody has spoken yet or will again: there all but LEFT goes.
    const from = start === 0 ? 0 : start * LOUDNESS_STEP_MS + LEFT;
    const to = end === loudness.length ? end * LOUDNESS_STEP_MS : end * LOUDNESS_STEP_MS - LEFT;
    if ((end - start) * LOUDNESS_STEP_MS >= SHORTEST_SILENCE && from < to) silences.push({ from, to });
  };
  for (const [index, value] of loudness.entries()) {
    if (value <= limit) continue;
    close(index);
    start = index + 1;
  }
  close(loudness.length);
  return silences;
}
