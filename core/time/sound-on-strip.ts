import type { SoundEnvelope } from '../model/sound.ts';
import type { ClipIndex } from './clip-index.ts';
import { frameAtSeconds } from './frame-table.ts';
import { ticksToSeconds } from './rational.ts';

/** The loudest bin of a stretch of seconds, 0 to 255; 0 where there is no sound. */
export function peakBetween({ from, step, peaks }: SoundEnvelope, start: number, end: number): number {
  const first = Math.max(0, Math.floor((start - from) / step));
  const last = Math.min(peaks.length - 1, Math.floor((end - from) / step));
  let most = 0;
  for (let bin = first; bin <= last; bin += 1) most = Math.max(most, peaks[bin] ?? 0);
  return most;
}

/** Seconds of the clip's clock at a place between frames, e.g. 3.5 = halfway from frame 3 to frame 4. */
export function secondsAtPlace(index: ClipIndex, place: number): number {
  const whole = Math.min(index.frames.length - 1, Math.max(0, Math.floor(place)));
  const frame = index.frames[whole];
  if (frame === undefined) return 0;
  return ticksToSeconds(frame.pts + (place - whole) * frame.ticks, index.timebase);
}

/**
 * The frame on screen where the clip is loudest: the strike, whose sound comes late, its echo, or anything else. Of several
 * as loud the first. Null when that lies outside of the frames.
 */
export function loudestFrame(index: ClipIndex, envelope: SoundEnvelope): number | null {
  const loudest = envelope.peaks.indexOf(255);
  return loudest < 0 ? null : frameAtSeconds(index, envelope.from + (loudest + 0.5) * envelope.step);
}
