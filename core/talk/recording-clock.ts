/** How far back arrivals are looked at, ms: so far a sound card and the computer may drift apart unseen. */
const WINDOW_MS = 5000;

/** An instant is told as well as it can be once the sound of so much more time has come, ms. */
export const SETTLES_MS = 800;

/**
 * What comes so much later than before, and never sooner, is neither late nor waits in the page's queue of sound, which holds 100 ms:
 * it was lost, ms. A page takes the last of what has heaped up in time, so that something always comes in time within `SETTLES_MS`.
 */
const LOST_MS = 200;

/**
 * Which millisecond of a recording goes with an instant. Its clock is the sound: so many samples are so many milliseconds.
 * Samples come in heaps, and a busy page takes them late, never early: the one that came soonest says when the recording
 * began. A very busy computer also loses some. From then on all come later: then only what came after the instant counts.
 */
export interface RecordingClock {
  /** So many milliseconds of sound have come, all counted, at the instant `now`, ms of any steady clock. */
  arrived(milliseconds: number, now: number): void;
  /**
   * The millisecond of the recording, whole, that is recorded at the instant `now`, at most `SETTLES_MS` and a second ago;
   * `from` before any sound has come.
   */
  at(now: number): number;
}

interface Arrival {
  readonly began: number;
  readonly now: number;
}

/** @param from milliseconds that were recorded before, as after a pause; >= 0, any fraction */
export function recordingClock(from = 0): RecordingClock {
  let arrivals: Arrival[] = [];
  const soonest = (of: readonly Arrival[]): number => of.reduce((least, { began }) => Math.min(least, began), Infinity);
  return {
    arrived(milliseconds, now) {
      const kept = now - WINDOW_MS - SETTLES_MS - 1000;
      if ((arrivals[0]?.now ?? now) < kept) arrivals = arrivals.filter((each) => each.now >= kept);
      arrivals.push({ began: now - milliseconds, now });
    },
    at(now) {
      const before = soonest(arrivals.filter((each) => each.now < now && now - each.now <= WINDOW_MS));
      const after = soonest(arrivals.filter((each) => each.now >= now && each.now - now <= SETTLES_MS));
      const isLost = after < Infinity && after - before > LOST_MS;
      const began = isLost ? after : Math.min(before, after);
      return Math.round(from + (began === Infinity ? 0 : Math.max(0, now - began)));
    },
  };
}
