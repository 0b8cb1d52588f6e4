import type { CaptureRate, Ratio } from '../model/frame.ts';

/** What of a clip tells how its times run. */
export interface ClockedClip {
  /** Seconds on screen a tick. */
  readonly timebase: Ratio;
  readonly nominalRate: Ratio | null;
  readonly captureRate: CaptureRate | null;
}

/** The one clock by which all times of a clip are told to people. 0 is where the clip's own time stamps have it. */
export interface SwingClock {
  /** Seconds that pass in a tick of the clip's time base, > 0. */
  readonly secondsATick: number;
  /** `real`: seconds of the swing, the capture rate being known. `on screen`: seconds of the clip as it plays. */
  readonly runs: 'real' | 'on screen';
}

/** A slow-motion clip must not show one time of the screen beside another of the swing: whoever tells a time asks here. */
export function clockOf(clip: ClockedClip): SwingClock {
  const slowing = slowingOf(clip);
  const onScreen = clip.timebase.num / clip.timebase.den;
  return slowing === null
    ? { secondsATick: onScreen, runs: 'on screen' }
    : { secondsATick: onScreen * slowing, runs: 'real' };
}

/** Seconds of the swing that pass in one second on screen, > 0; null when the capture rate is not known. */
export function slowingOf({ captureRate, nominalRate }: Omit<ClockedClip, 'timebase'>): number | null {
  if (captureRate === null || nominalRate === null) return null;
  const { num, den } = captureRate.framesPerSecond;
  return (nominalRate.num * den) / (nominalRate.den * num);
}

/** Seconds of playing in which one of the swing's passes, >= 1, by what the file tells of the camera. */
export function slownessOf(clip: Omit<ClockedClip, 'timebase'>): number {
  return Math.max(1, 1 / (slowingOf(clip) ?? 1));
}
