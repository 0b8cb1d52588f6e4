import type { SoundEnvelope } from '../model/sound.ts';

/** Something short and sudden that is heard, as a strike is. */
export interface SoundOnset {
  /** On the clip's own clock. */
  readonly seconds: number;
  /** 0 to 255, of the loudest of the clip. */
  readonly loudness: number;
}

/** It is so many times as loud as what was heard in the time before it, and the loudest about; seconds. */
const SUDDEN = 4;
const BEFORE = 0.2;
const ABOUT = 0.15;
/** What is softer is noise of the room: a part of the loudest. */
const LEAST = 0.1;

/** All onsets of a clip's sound, in order. */
export function soundOnsets({ from, step, peaks }: SoundEnvelope): readonly SoundOnset[] {
  const [before, about] = [Math.max(2, Math.round(BEFORE / step)), Math.max(1, Math.round(ABOUT / step))];
  const onsets: SoundOnset[] = [];
  for (let at = 1; at < peaks.length; at += 1) {
    const loudness = peaks[at] ?? 0;
    if (loudness < LEAST * 255 || loudness < (peaks[at - 1] ?? 0)) continue;
    const near = peaks.subarray(Math.max(0, at - about), at + about + 1);
    // Of two as loud the first counts.
    if (near.some((other, place) => other > loudness || (other === loudness && place < Math.min(at, about)))) continue;
    const quiet = peaks.slice(Math.max(0, at - 1 - before), at - 1).toSorted();
    if (loudness < SUDDEN * Math.max(1, quiet[quiet.length >> 1] ?? 0)) continue;
    onsets.push({ seconds: from + at * step, loudness });
  }
  return onsets;
}
