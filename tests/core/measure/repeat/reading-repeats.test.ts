import { describe, expect, it } from 'vitest';
import { intraclassCorrelations, analyseTwoWay } from '../../../../core/measure/repeat/agreement.ts';
import { limitsOfAgreement, repeatabilityOf } from '../../../../core/measure/repeat/measurement-error.ts';
import { readingRepeats } from '../../../../core/measure/repeat/reading-repeats.ts';
import { readSwing } from '../../../../core/measure/readings/read-swing.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { BodyPointId } from '../../../../core/model/body-points.ts';
import type { PicturePoint } from '../../../../core/model/mark.ts';
import type { RepeatFrame } from '../../../../core/model/repeat-check.ts';
import { CHECKPOINTS } from '../../../../core/model/words.ts';
import { within } from '../../../support/within.ts';
import { HEIGHT, WIDTH, inventedSwing } from '../invented-swing.ts';
import { STEADY } from '../../../support/steady.ts';

const SWING = inventedSwing();

/** Every marked frame of the invented swing, each point placed again `rounds` times by `place`. */
function framesOf(rounds: number, place: (point: PicturePoint, round: number) => PicturePoint): RepeatFrame[] {
  return SWING.clips.flatMap((clip) =>
    clip.marks.map((marks): RepeatFrame => ({
      clipId: clip.view,
      view: clip.view,
      handedness: SWING.handedness,
      frame: marks.frame,
      checkpoints: CHECKPOINTS.filter((name) => clip.checkpoints[name]?.index === marks.frame.index),
      width: WIDTH,
      height: HEIGHT,
      shapes: clip.marks.flatMap(({ shapes }) => shapes),
      placings: Object.fromEntries(
        Object.entries(marks.points).map(([point, { x, y }]) => [
          point,
          Array.from({ length: rounds + 1 }, (_, round) => (round === 0 ? { x, y } : place({ x, y }, round))),
        ]),
      ),
    })),
  );
}

describe('how well readings repeat', () => {
  it('placed exactly alike they have no error, and agree wholly', () => {
    const repeats = readingRepeats(framesOf(2, (point) => point));
    expect(repeats.length).toBeGreaterThan(15);
    for (const { sem, smallestChange, icc, rounds } of repeats) {
      // A mean of three equal numbers may be off by a rounding of its last bit.
      within(sem, 0, 1e-12);
      within(smallestChange, 0, 1e-11);
      within(icc ?? 1, 1, 1e-12);
      expect(rounds).toBe(3);
    }
  });

  it('the error found is the u that readings state, when the hand is the one they count with (seed 3)', () => {
    const numbers = seeded(3);
    // Many rounds, so that the error is sure: with 8 checkpoints the SEM has 280 degrees of freedom.
    const disturbed = framesOf(40, ({ x, y }) => ({ x: x + 3 * numbers.normal(), y: y + 3 * numbers.normal() }));
    const repeats = readingRepeats(disturbed);
    const readings = readSwing(SWING, STEADY).filter((reading) => reading.state === 'measured');
    // Lines only: the angle of a nearly straight leg folds at 180 degrees and scatters less than its u.
    for (const id of ['back-incline', 'shoulder-line', 'hip-line', 'side-tilt'] as const)
      for (const view of ['down-the-line', 'face-on'] as const) {
        const repeat = repeats.find((one) => one.id === id && one.aspect === 'value' && one.view === view);
        const stated = readings.filter((one) => one.id === id && one.aspect === 'value' && one.view === view);
        if (repeat === undefined || stated.some(({ notes }) => notes.includes('short-line'))) continue;
        const pooled = Math.sqrt(stated.reduce((sum, { u }) => sum + u * u, 0) / stated.length);
        expect(repeat.things).toBe(stated.length);
        // With 280 degrees of freedom a deviation is off by 4.2 % of itself; four of them.
        within(repeat.sem / pooled, 1, 0.17, `${id} ${view}`);
      }
  }, 60_000);

  it('times are not in it, and a reading whose point was not placed again is not either', () => {
    const frames = framesOf(1, (point) => point).map((frame) => ({
      ...frame,
      placings: without(frame.placings, 'tailbone'),
    }));
    const ids = readingRepeats(frames).map(({ id }) => id);
    expect(ids).not.toContain('tempo');
    expect(ids).not.toContain('back-incline');
    expect(ids).toContain('shoulder-line');
  });

  it('one frame alone gives an error and no agreement', () => {
    const [one] = framesOf(1, ({ x, y }, round) => ({ x: x + round, y: y - 2 * round }));
    if (one === undefined) throw new Error('the invented swing has no frame');
    const repeats = readingRepeats([one]);
    expect(repeats.length).toBeGreaterThan(0);
    for (const { icc, things } of repeats) expect([icc, things]).toEqual([null, 1]);
  });

  it('of nothing is nothing', () => {
    expect(readingRepeats([])).toEqual([]);
  });

  it('an angle that goes over the end of its scale has not turned round', () => {
    // Upside down: the line from tailbone to neck base points straight down, 180 or -180 degrees from vertical.
    const frame: RepeatFrame = {
      ...{ clipId: 'c', view: 'down-the-line', handedness: 'right', frame: { index: 0, pts: 0 } },
      ...{ checkpoints: ['address'], width: WIDTH, height: HEIGHT, shapes: [] },
      placings: {
        tailbone: [
          { x: 500, y: 100 },
          { x: 500, y: 100 },
        ],
        'neck-base': [
          { x: 501, y: 400 },
          { x: 499, y: 400 },
        ],
      },
    };
    const [repeat] = readingRepeats([frame]);
    expect(repeat?.id).toBe('back-incline');
    // By hand: 2 px in 300 are 0.382 degrees; of a pair the deviation is the difference over sqrt(2).
    within(repeat?.sem ?? 0, ((2 / 300) * (180 / Math.PI)) / Math.SQRT2, 1e-4);
  });
});

function without(placings: RepeatFrame['placings'], left: BodyPointId): RepeatFrame['placings'] {
  return Object.fromEntries(Object.entries(placings).filter(([point]) => point !== left));
}

describe('tables that say nothing', () => {
  it('have no agreement where all values are one', () => {
    const icc = intraclassCorrelations(
      analyseTwoWay([
        [2, 2],
        [2, 2],
      ]),
    );
    expect(Object.values(icc)).toEqual([null, null, null, null, null, null]);
    expect(
      repeatabilityOf([
        [2, 2],
        [2, 2],
      ]),
    ).toMatchObject({ sem: 0, icc: null });
  });

  it.each([
    [[]],
    [[[1, 2]]],
    [[[1], [2]]],
    [[[1, 2], [3]]],
    [
      [
        [1, 2],
        [3, Number.NaN],
      ],
    ],
  ])('%j is refused', (table) => {
    expect(() => analyseTwoWay(table)).toThrow(/table/);
  });

  it('a single round, or pairs that do not match, are refused', () => {
    expect(() => repeatabilityOf([[1]])).toThrow(/two rounds/);
    expect(() => repeatabilityOf([])).toThrow(/table/);
    expect(() => limitsOfAgreement([1, 2], [1], 2)).toThrow(/limits/);
    expect(() => limitsOfAgreement([1], [1], 2)).toThrow(/limits/);
    expect(() => limitsOfAgreement([1, Infinity], [1, 2], 2)).toThrow(/limits/);
  });
});
