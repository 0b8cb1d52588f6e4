import { describe, expect, it } from 'vitest';
import {
  WITHIN_95,
  changesInWords,
  enoughInWords,
  scatterInWords,
} from '../../../../core/measure/repeat/repeat-words.ts';
import type { ReadingRepeat } from '../../../../core/measure/repeat/reading-repeats.ts';
import { EMPTY_GOALS } from '../../../../core/measure/goals/goals.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { RepeatFrame } from '../../../../core/model/repeat-check.ts';
import { within } from '../../../support/within.ts';

const frameOf = (placings: RepeatFrame['placings'], height = 1080): RepeatFrame => ({
  ...{ clipId: 'clip', view: 'face-on', handedness: 'right', frame: { index: 0, pts: 0 }, checkpoints: [] },
  ...{ width: 608, height, shapes: [], placings },
});

/** Two placings 4 px apart across: deviations of 2 each, sd = sqrt((4 + 4) / 2) = 2 with x and y as 2 degrees of freedom. */
const apart = (across: number) => [
  { x: 100, y: 50 },
  { x: 100 + across, y: 50 },
];

const repeatOf = (fields: Partial<ReadingRepeat>): ReadingRepeat => ({
  ...{ id: 'back-incline', aspect: 'value', view: 'down-the-line', unit: 'deg', sem: 1, freedom: 4 },
  ...{ smallestChange: 2.77, icc: 0.9, things: 4, rounds: 3 },
  ...fields,
});

describe('what a repeat check says in sentences', () => {
  it('19 of 20 clicks lie within sqrt(-2 ln 0.05) standard deviations of their middle (Rayleigh; seed 5)', () => {
    const numbers = seeded(5);
    const tries = 20_000;
    const inside = Array.from({ length: tries }, () => Math.hypot(numbers.normal(), numbers.normal())).filter(
      (reach) => reach <= WITHIN_95,
    ).length;
    // Four standard deviations of a share of 95 % in so many tries, sqrt(0.95 x 0.05 / 20000) = 0.0015.
    within(inside / tries, 0.95, 0.0062);
  });

  it('the scatter of all points comes first, in pixels and on a player; then the steadiest and the widest', () => {
    // sd 2 and 6: together sqrt((2 x 4 + 2 x 36) / 4) = 4.47; times 2.448 = 10.9 px, of 175 / (0.75 x 1080) cm = 2.4 cm.
    const frames = [frameOf({ 'head-centre': apart(4), 'lead-knee': apart(12) })];
    expect(scatterInWords(frames)).toEqual([
      '19 of 20 of your clicks land within about 11 px of the middle, in a picture 1080 lines high: about 2.4 cm on a ' +
        'player 175 cm tall who fills three quarters of it.',
      'Your steadiest point is head centre: about 5 px. The widest is lead knee: about 15 px, or about 3 cm on that player.',
    ]);
    // A picture of twice the lines: the same clicks reach half as far.
    expect(scatterInWords([frameOf({ 'head-centre': apart(4) }, 2160)])).toEqual([
      expect.stringContaining('about 2.4 px'),
    ]);
  });

  it('one point has no widest beside it; none has nothing to say; clicks all alike are not called exact', () => {
    expect(scatterInWords([frameOf({ 'head-centre': apart(4) })])).toHaveLength(1);
    expect(scatterInWords([])).toEqual([]);
    expect(scatterInWords([frameOf({ 'head-centre': apart(0) })])[0]).toContain('about 0.7 px');
  });

  it('each unit says under which change the clicks can be all of it, the finest reading first, with its ±', () => {
    // 8 degrees of freedom: ± 1.96 / sqrt(16) = 49 % of it.
    expect(changesInWords([repeatOf({ smallestChange: 4.13, freedom: 8 })])).toEqual([
      'Back incline, down the line: anything under 4.1° ± 2.0° may just be your clicking.',
    ]);
    expect(
      changesInWords([
        repeatOf({ smallestChange: 4.13, freedom: 8 }),
        repeatOf({ id: 'shoulder-line', view: 'face-on', smallestChange: 2.2, freedom: 8 }),
        repeatOf({ id: 'hip-line', smallestChange: 3 }),
        repeatOf({ id: 'hip-rise', unit: 'cm', smallestChange: 1.5, freedom: 200 }),
      ]),
    ).toEqual([
      'Shoulder line, face on: anything under 2.2° ± 1.1° may just be your clicking; ' +
        'back incline, down the line: under 4.1° ± 2.0°.',
      'Hip rise, down the line: anything under 1.50 ± 0.15 cm may just be your clicking.',
    ]);
    expect(changesInWords([])).toEqual([]);
  });

  it('a reading is repeatable enough only with all of its ± within the tolerance, in its own unit', () => {
    const goals = {
      ...EMPTY_GOALS,
      tolerances: [
        { reading: 'back-incline', aspect: 'value', unit: 'deg', within: 5 },
        { reading: 'hip-line', aspect: 'value', unit: 'deg', within: 3 },
        { reading: 'shoulder-line', aspect: 'value', unit: 'deg', within: 3 },
        { reading: 'hip-rise', aspect: 'value', unit: '% leg length', within: 3 },
      ],
    } as const;
    const repeats = [
      // 8 degrees of freedom: 3.35 + 49 % = 4.99; 6 - 49 % = 3.06; 2.2 + 49 % = 3.3.
      repeatOf({ smallestChange: 3.35, freedom: 8 }),
      repeatOf({ id: 'hip-line', smallestChange: 6, freedom: 8 }),
      repeatOf({ id: 'shoulder-line', smallestChange: 2.2, freedom: 8 }),
      repeatOf({ id: 'hip-rise', unit: 'cm', smallestChange: 1 }),
    ];
    expect(enoughInWords(repeats, goals)).toEqual([
      'Repeatable enough for your goals: back incline, down the line.',
      'Not repeatable enough, the clicks alone go past the tolerance of your goals: ' +
        'hip line, down the line (6.0° ± 2.9°, tolerance 3°).',
      "Can't tell yet, a check with more frames would: shoulder line, down the line (2.2° ± 1.1°, tolerance 3°).",
      'One reading has no tolerance in your goals to judge by.',
    ]);
    expect(enoughInWords(repeats, EMPTY_GOALS)).toEqual(['4 readings have no tolerance in your goals to judge by.']);
    expect(enoughInWords([], goals)).toEqual([]);
    // What two frames happen to give alike is not called fine.
    expect(enoughInWords([repeatOf({ smallestChange: 3.35, freedom: 2 })], goals)[0]).toMatch(/^Can't tell yet/);
  });
});
