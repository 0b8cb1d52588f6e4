/** How far back arrivals are looked at, ms: so far a sound card and the computer may drift apart unseen. */
const WINDOW_MS = 5000;

/**
 * Which millisecond of a recording goes with an instant. Its clock is the sound: so many samples are so many milliseconds.
 * Samples come in heaps, and a busy page takes them late, never early: of the last seconds the one that came soonest says
 * when the recording began.
 */
export interface RecordingClock {
  /** So many milliseconds of sound have come, all counted, at the instant `now`, ms of any steady clock. */
  arrived(milliseconds: number, now: number): void;
  /** The millisecond of the recording, whole, that is recorded at the instant `now`; `from` before any sound has come. */
  at(now: number): number;
}

/** @param from milliseconds that were recorded before, as after a pause; >= 0, any fraction */
export function recordingClock(from = 0): RecordingClock {
  let arrivals: { readonly began: number; readonly now: number }[] = [];
  return {
    arrived(milliseconds, now) {
      const began = now - milliseconds;
      // One that came later and sooner outlives this one.
      arrivals = [...arrivals.filter((each) => each.began < began && now - each.now <= WINDOW_MS), { began, now }];
    },
    at(now) {
      const [soonest] = arrivals;
      return Math.round(from + (soonest === undefined ? 0 : Math.max(0, now - soonest.began)));
    },
  };
}
