/**
 * How many frames a run goes on with each picture, so that it keeps its speed: pure arithmetic on what pictures took. All
 * times are milliseconds.
 */
export interface Pace {
  /** Each picture is this many frames on from the one before, >= 1; 1 passes none over. */
  readonly every: number;
  /** What the screen can show at best, >= 1. */
  readonly smallest: number;
  /** Pictures since the last look, how long they should have taken and how long they took. */
  readonly pictures: number;
  readonly planned: number;
  readonly took: number;
  /** Of these the picture that was latest, which is left out: a machine may stumble once. */
  readonly latest: { readonly planned: number; readonly took: number } | null;
  /** How long the run has kept its speed, and how long it must before fewer frames are passed over again. */
  readonly calm: number;
  readonly patience: number;
  /** Whether fewer frames are passed over just now to see whether that holds. */
  readonly trying: boolean;
}

/** Looked at after this many pictures. */
const PICTURES_A_LOOK = 8;
/** A run that takes this much longer than it should cannot show every picture. */
const TOO_SLOW = 1.15;
const IN_TIME = 1.06;
const PATIENCE = 1500;
const MOST_PATIENCE = 60_000;

export function newPace(smallest: number): Pace {
  return {
    ...{ every: smallest, smallest, pictures: 0, planned: 0, took: 0, latest: null },
    ...{ calm: 0, patience: PATIENCE, trying: false },
  };
}

/** After a picture that should have come `planned` after the one before it, and came `took` after it. */
export function afterPicture(before: Pace, planned: number, took: number): Pace {
  const isLatest = before.latest === null || took - planned > before.latest.took - before.latest.planned;
  const pace = {
    ...before,
    pictures: before.pictures + 1,
    planned: before.planned + planned,
    took: before.took + took,
    latest: isLatest ? { planned, took } : before.latest,
  };
  return pace.pictures < PICTURES_A_LOOK ? pace : looked(pace);
}

function looked(pace: Pace): Pace {
  const planned = pace.planned - (pace.latest?.planned ?? 0);
  const took = pace.took - (pace.latest?.took ?? 0);
  const fresh = { ...pace, pictures: 0, planned: 0, took: 0, latest: null };
  if (took > planned * TOO_SLOW) {
    const every = Math.max(pace.every + 1, Math.ceil((pace.every * took) / planned - 0.25));
    // What was tried and did not hold is tried again later, and later still.
    const patience = pace.trying ? Math.min(MOST_PATIENCE, pace.patience * 2) : pace.patience;
    return { ...fresh, every, patience, calm: 0, trying: false };
  }
  if (took > planned * IN_TIME || pace.every <= pace.smallest) return { ...fresh, calm: 0 };
  const calm = pace.calm + took;
  if (calm < pace.patience) return { ...fresh, calm };
  return { ...fresh, every: pace.every - 1, calm: 0, trying: true };
}

/** The pace for another speed of the same run: what the machine was found able to do holds on. */
export function paceAt(before: Pace, smallest: number, faster: number): Pace {
  const able = before.every > before.smallest ? Math.ceil(before.every * faster - 0.01) : smallest;
  return { ...newPace(smallest), every: Math.max(smallest, able), patience: before.patience };
}
