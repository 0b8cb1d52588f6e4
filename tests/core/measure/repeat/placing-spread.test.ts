import { describe, expect, it } from 'vitest';
import { ASSUMED_PLACING, placingSigma } from '../../../../core/measure/uncertainty/placing.ts';
import {
  FINEST_PLACING,
  placingErrorsOf,
  placingSpreads,
  pooledPlacing,
} from '../../../../core/measure/repeat/placing-spread.ts';
import { withinSubject } from '../../../../core/measure/repeat/within-subject.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { RepeatFrame } from '../../../../core/model/repeat-check.ts';
import { within } from '../../../support/within.ts';

type Placings = RepeatFrame['placings'];
const frameOf = (placings: Placings, height = 1080, index = 0): RepeatFrame => ({
  clipId: 'clip',
  view: 'face-on',
  handedness: 'right',
  frame: { index, pts: index },
  checkpoints: [],
  width: 1920,
  height,
  shapes: [],
  placings,
});

describe('the placing error of a body point', () => {
  it('is sqrt(sum d^2 / 2n) over both coordinates of all pairs, with one degree of freedom for each d', () => {
    const first = frameOf({
      ball: [
        { x: 100, y: 200 },
        { x: 104, y: 198 },
      ],
    });
    const second = frameOf(
      {
        ball: [
          { x: 500, y: 300 },
          { x: 499, y: 305 },
        ],
      },
      1080,
      1,
    );
    // By hand: d = 4, -2, -1, 5, so sum d^2 = 46 over four coordinates.
    const [spread] = placingSpreads([first, second]);
    expect(spread?.point).toBe('ball');
    within(spread?.sd ?? 0, Math.sqrt(46 / 8), 1e-12);
    expect(spread?.freedom).toBe(4);
  });

  it('of three placings is that about their mean, with two degrees of freedom a coordinate', () => {
    const frame = frameOf({
      ball: [
        { x: 1, y: 7 },
        { x: 2, y: 7 },
        { x: 6, y: 7 },
      ],
    });
    // By hand: mean 3, squares 4 + 1 + 9; y stands still but counts.
    const [spread] = placingSpreads([frame]);
    within(spread?.sd ?? 0, Math.sqrt(14 / 4), 1e-12);
    expect(spread?.freedom).toBe(4);
  });

  it('is stated for 1080 lines: the same clicks in a picture of 540 lines count double', () => {
    const places = [
      { x: 10, y: 10 },
      { x: 13, y: 14 },
    ];
    const [small] = placingSpreads([frameOf({ ball: places }, 540)]);
    const [large] = placingSpreads([frameOf({ ball: places }, 1080)]);
    within(small?.sd ?? 0, 2 * (large?.sd ?? 0), 1e-12);
  });

  it('does not change where points were meant: each frame scatters about its own mean', () => {
    const near = [
      { x: 0, y: 0 },
      { x: 2, y: 2 },
    ];
    const far = near.map(({ x, y }) => ({ x: x + 900, y: y + 700 }));
    const together = placingSpreads([frameOf({ ball: near }), frameOf({ ball: far }, 1080, 1)]);
    within(together[0]?.sd ?? 0, placingSpreads([frameOf({ ball: near })])[0]?.sd ?? 0, 1e-12);
  });

  it('comes near the hand that placed, as near as its freedom says (seed 7)', () => {
    const numbers = seeded(7);
    const frames = Array.from({ length: 200 }, (_, index) =>
      frameOf(
        { tailbone: [0, 1, 2].map(() => ({ x: 2.5 * numbers.normal(), y: 2.5 * numbers.normal() })) },
        1080,
        index,
      ),
    );
    const [spread] = placingSpreads(frames);
    expect(spread?.freedom).toBe(800);
    // A standard deviation with 800 degrees of freedom is off by 1 / sqrt(1600) = 2.5 % of itself; four of them.
    within(spread?.sd ?? 0, 2.5, 0.25);
  });

  it('is said for no point that was placed once, and none without points', () => {
    expect(placingSpreads([frameOf({ ball: [{ x: 1, y: 1 }] })])).toEqual([]);
    expect(placingSpreads([])).toEqual([]);
    expect(pooledPlacing([])).toBeNull();
    expect(withinSubject([[], [3]])).toBeNull();
  });

  it('refuses places that are no numbers', () => {
    expect(() => withinSubject([[1, Number.NaN]])).toThrow(/finite/);
    expect(() =>
      placingSpreads([
        frameOf({
          ball: [
            { x: Infinity, y: 1 },
            { x: 1, y: 1 },
          ],
        }),
      ]),
    ).toThrow(/finite/);
  });
});

describe('what readings count with', () => {
  const frames = [
    frameOf({
      ball: [
        { x: 0, y: 0 },
        { x: 4, y: 0 },
      ],
      tailbone: [
        { x: 9, y: 9 },
        { x: 9, y: 9 },
      ],
    }),
  ];

  it('is the own error where there is one, with its freedom, and the assumed one elsewhere', () => {
    const errors = placingErrorsOf(frames);
    expect(placingSigma(errors, 1080, 'ball', false)).toEqual({ sigma: 2, assumed: false, freedom: 2 });
    const assumed = { sigma: ASSUMED_PLACING.assumed, assumed: true, freedom: Infinity };
    expect(placingSigma(errors, 1080, 'neck-base', false)).toEqual(assumed);
    expect(placingSigma(errors, 1080, null, false)).toEqual(assumed);
    expect(placingSigma({ known: { ball: 2 }, assumed: 3 }, 1080, 'ball', false).freedom).toBe(Infinity);
  });

  it('is never less than a pixel can say, however alike the clicks', () => {
    expect(placingErrorsOf(frames).known.tailbone).toBe(FINEST_PLACING);
    expect(placingSpreads(frames).find(({ point }) => point === 'tailbone')?.sd).toBe(0);
  });

  it('without any check is what is assumed', () => {
    expect(placingErrorsOf([])).toEqual({ ...ASSUMED_PLACING, freedom: {} });
  });

  it('pools all points to one number of the hand', () => {
    // d = 4, 0, 0, 0 in four coordinates.
    within(pooledPlacing(frames)?.sd ?? 0, Math.sqrt(16 / 8), 1e-12);
    expect(pooledPlacing(frames)?.freedom).toBe(4);
  });
});
