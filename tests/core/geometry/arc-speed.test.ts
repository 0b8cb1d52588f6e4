import { describe, expect, it } from 'vitest';
import { phasesOf, speedOnArc } from '../../../core/geometry/arc-speed.ts';
import type { ArcSpeed, SpeedErrors, TimedPlace } from '../../../core/geometry/arc-speed.ts';
import { placeOnArc } from '../../../core/geometry/arc.ts';
import type { Arc } from '../../../core/geometry/arc.ts';
import { fitArc } from '../../../core/geometry/fit-arc.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 1729;
const DEGREE = Math.PI / 180;
const ARC: Arc = { centre: { along: 900, up: -420 }, radius: 350, incline: 55 * DEGREE };
const NONE: SpeedErrors = { placing: 0, timing: 0, incline: 0 };
const RATE = 240;

/** Impact at time 0, 5 degrees before the low point; the phase is a parabola of time, faster toward impact. */
const turning = 32;
const quicker = 150;
const phaseAt = (seconds: number) => -95 * DEGREE + turning * seconds + (quicker / 2) * seconds * seconds;
/** From `before` frames before impact to `after` frames past it, the last `late` of a frame before impact. */
const places = (before: number, after: number, late = 0.4): TimedPlace[] =>
  Array.from({ length: before + after }, (_, i) => {
    const seconds = (i - before + 1 - late) / RATE;
    return { ...placeOnArc(ARC, phaseAt(seconds)), seconds };
  });
function speedOf(timed: readonly TimedPlace[], errors = NONE, incline = ARC.incline, count = 5): ArcSpeed {
  const fit = fitArc(timed, incline);
  if (fit.state !== 'fitted') throw new Error(`${fit.reason} (seed ${String(SEED)})`);
  const result = speedOnArc(fit.arc, timed, 0, errors, count);
  if (result.state !== 'fitted') throw new Error(result.reason);
  return result.speed;
}
const arcOf = (timed: readonly TimedPlace[]) => {
  const fit = fitArc(timed, ARC.incline);
  if (fit.state !== 'fitted') throw new Error(fit.reason);
  return fit.arc;
};

describe("the clubhead's speed", () => {
  it('is radius times turning at the instant, exact for a phase that is a parabola of time', () => {
    for (const count of [4, 5, 7]) {
      const { speed, turning: found, u } = speedOf(places(9, 3), NONE, ARC.incline, count);
      // The arc is exact to 1e-7 px; the instant's slope over 4 intervals of 1/240 s multiplies that some 100 times.
      within(found, turning, 1e-6);
      within(speed, 350 * turning, 1e-3);
      expect(u).toBe(0);
    }
  });

  it('is negative when the low point is passed away from the target', () => {
    const back = places(9, 3).map((place) => ({ ...place, along: -place.along }));
    within(speedOf(back).speed, -350 * turning, 1e-3);
  });

  it('does not know of places after the instant, but for the arc', () => {
    // After impact the club is slower; the places stay on the arc.
    const slower = places(9, 3).map((place) =>
      place.seconds <= 0 ? place : { ...placeOnArc(ARC, phaseAt(0) + 20 * place.seconds), seconds: place.seconds },
    );
    within(speedOf(slower).speed, 350 * turning, 1e-3);
  });

  it('doubles when time runs twice as fast, and with twice the pixels', () => {
    const shaken = places(9, 3).map((place, i) => ({ ...place, up: place.up + (i % 3) - 1 }));
    const errors = { placing: 2, timing: 1e-4, incline: 0.02 };
    const one = speedOf(shaken, errors);
    const fast = speedOf(
      shaken.map((place) => ({ ...place, seconds: place.seconds / 2 })),
      { ...errors, timing: 5e-5 },
    );
    within(fast.speed / one.speed, 2, 1e-9);
    within(fast.u / one.u, 2, 1e-5);
    const large = speedOf(
      shaken.map((p) => ({ along: 2 * p.along, up: 2 * p.up, seconds: p.seconds })),
      { ...errors, placing: 4 },
    );
    within(large.speed / one.speed, 2, 1e-7);
    within(large.u / one.u, 2, 1e-5);
  });

  it('scatters as it says when places are off: arc and phases from the same places', () => {
    const numbers = seeded(SEED);
    const [truth, placing, times] = [places(9, 3), 1, 1000];
    const told = speedOf(truth, { ...NONE, placing });
    const misses = Array.from({ length: times }, () => {
      const off = truth.map((p) => ({
        along: p.along + placing * numbers.normal(),
        up: p.up + placing * numbers.normal(),
        seconds: p.seconds,
      }));
      return speedOf(off).speed - 350 * turning;
    });
    const scatter = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / times);
    // 1,000 times tell a standard deviation to 2.2 %: three of these.
    within(scatter / told.u, 1, 0.067, `seed ${String(SEED)}`);
    expect(told.u).toBe(told.parts.placing);
  });

  it('scatters as it says when times are off', () => {
    const numbers = seeded(SEED + 1);
    const [truth, timing, times] = [places(9, 3), 2e-5, 1000];
    const told = speedOf(truth, { ...NONE, timing });
    const arc = arcOf(truth);
    const misses = Array.from({ length: times }, () => {
      const off = truth.map((place) => ({ ...place, seconds: place.seconds + timing * numbers.normal() }));
      const result = speedOnArc(arc, off, 0, NONE);
      if (result.state !== 'fitted') throw new Error(result.reason);
      return result.speed.speed - 350 * turning;
    });
    const scatter = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / times);
    within(scatter / told.u, 1, 0.067, `seed ${String(SEED + 1)}`);
  });

  it('changes with the incline as refitting gives', () => {
    const truth = places(9, 3);
    const by = 1e-3;
    const slope =
      (speedOf(truth, NONE, ARC.incline + by).speed - speedOf(truth, NONE, ARC.incline - by).speed) / (2 * by);
    const { parts } = speedOf(truth, { ...NONE, incline: 0.05 });
    within(parts.incline / (0.05 * Math.abs(slope)), 1, 0.01);
  });

  it('adds its parts up', () => {
    const { u, parts } = speedOf(places(9, 3), { placing: 2, timing: 1e-4, incline: 0.05 });
    within(u, Math.hypot(parts.placing, parts.timing, parts.incline), 1e-9);
  });
});

describe('phases against time', () => {
  it('do not jump where the angle is cut: from above the trail side round to the target side', () => {
    const wanted = [-240, -200, -170, -120, -60, -10, 30].map((degrees) => degrees * DEGREE);
    const found = phasesOf(
      ARC,
      wanted.map((phase) => placeOnArc(ARC, phase)),
    );
    found.forEach((phase, i) => within(phase - (found[0] ?? 0), (wanted[i] ?? 0) - (wanted[0] ?? 0), 1e-9));
    expect(phasesOf(ARC, [])).toEqual([]);
  });
});

describe('there is no speed', () => {
  it('from too few places before the instant, or an instant too long after them', () => {
    const timed = places(4, 6);
    const arc = arcOf(timed);
    expect(speedOnArc(arc, timed, 0, NONE)).toEqual({ state: 'refused', reason: 'too-few-places' });
    expect(speedOnArc(arc, timed, 0, NONE, 4).state).toBe('fitted');
    const last = timed.at(-1)?.seconds ?? Number.NaN;
    expect(speedOnArc(arc, timed, last + 0.99 / RATE, NONE).state).toBe('fitted');
    expect(speedOnArc(arc, timed, last + 1.01 / RATE, NONE)).toEqual({ state: 'refused', reason: 'instant-too-far' });
  });

  it('from places of another arc, times that do not rise, or three places: it throws', () => {
    const timed = places(9, 3);
    const arc = arcOf(timed);
    expect(() => speedOnArc(arc, timed.slice(1), 0, NONE)).toThrow('own');
    expect(() => speedOnArc(arc, [...timed].reverse(), 0, NONE)).toThrow('rise');
    expect(() =>
      speedOnArc(
        arc,
        timed.map((place) => ({ ...place, seconds: 1 })),
        0,
        NONE,
      ),
    ).toThrow('rise');
    expect(() => speedOnArc(arc, timed, 0, NONE, 3)).toThrow('4');
  });
});
