import { describe, expect, it } from 'vitest';
import {
  SUGGESTED_FRAMES,
  pointsToRepeat,
  repeatCandidates,
  shuffledShowings,
} from '../../../../core/measure/repeat/plan-check.ts';
import { BODY_POINTS } from '../../../../core/model/body-points.ts';
import { CHECKPOINTS } from '../../../../core/model/words.ts';
import { inventedSwing } from '../invented-swing.ts';

const CLIPS = inventedSwing().clips.map((clip) => ({ ...clip, id: clip.view }));

describe('frames to repeat', () => {
  it('are all that are marked, address, top and impact of every view first', () => {
    const candidates = repeatCandidates(CLIPS);
    expect(candidates).toHaveLength(CLIPS.length * CHECKPOINTS.length);
    expect(candidates.slice(0, SUGGESTED_FRAMES).map(({ checkpoint, view }) => [checkpoint, view])).toEqual(
      ['address', 'top', 'impact'].flatMap((name) => CLIPS.map(({ view }) => [name, view])),
    );
  });

  it('name no point that was hidden, that stands where it was proposed, that its view does not use, or that is not there', () => {
    const [clip] = CLIPS;
    const [marks] = clip?.marks ?? [];
    if (clip === undefined || marks === undefined) throw new Error('the invented swing has no marks');
    const at = { x: 1, y: 1, hidden: false };
    const few = {
      ...marks,
      points: {
        ball: at,
        tailbone: { ...at, hidden: true },
        'lead-elbow': at,
        'neck-base': at,
        'trail-hip': { ...at, guess: 5 },
      },
    };
    const [candidate, ...others] = repeatCandidates([{ ...clip, view: 'down-the-line', marks: [few] }]);
    expect(candidate?.points).toEqual(['neck-base', 'ball']);
    expect(others).toEqual([]);
    const hidden = { ...marks, points: { tailbone: { ...at, hidden: true } } };
    expect(repeatCandidates([{ ...clip, marks: [hidden, { ...marks, points: {} }] }])).toEqual([]);
  });

  it('with no name are offered last', () => {
    const bare = CLIPS.map((clip) => ({
      ...clip,
      checkpoints: { finish: clip.checkpoints.finish ?? { index: 0, pts: 0, ticks: 1 } },
    }));
    const order = repeatCandidates(bare).map(({ checkpoint }) => checkpoint);
    expect(order.slice(0, 2)).toEqual(['finish', 'finish']);
    expect(new Set(order.slice(2))).toEqual(new Set([null]));
  });
});

describe('points to repeat', () => {
  const points = BODY_POINTS.filter((point) => point !== 'lead-elbow' && point !== 'trail-elbow');
  const frame = { points, view: 'down-the-line' } as const;

  it('are those that most readings use, in the order of a guided run', () => {
    const chosen = pointsToRepeat(frame, {}, 8);
    expect(chosen).toHaveLength(8);
    expect(chosen).toEqual(BODY_POINTS.filter((point) => chosen.includes(point)));
    for (const point of ['neck-base', 'tailbone', 'lead-shoulder', 'trail-shoulder'] as const)
      expect(chosen).toContain(point);
    // The ball is in no reading of points.
    expect(chosen).not.toContain('ball');
  });

  it('go on with what is not known yet', () => {
    const first = pointsToRepeat(frame, {}, 8);
    const known = Object.fromEntries(first.map((point) => [point, 2]));
    const second = pointsToRepeat(frame, known, 8);
    expect(second.filter((point) => first.includes(point))).toEqual([]);
  });

  it('are all where there are fewer, and none of none', () => {
    expect(pointsToRepeat(frame, {}, Infinity)).toEqual(points);
    expect(pointsToRepeat({ ...frame, points: ['ball'] }, { ball: 1 }, 8)).toEqual(['ball']);
    expect(pointsToRepeat({ ...frame, points: [] }, {}, 8)).toEqual([]);
  });
});

describe('the order of showings', () => {
  it('has every frame once a round and none twice running, whatever the seed', () => {
    for (let seed = 0; seed < 500; seed += 1)
      for (const choices of [2, 3, 6]) {
        const showings = shuffledShowings(choices, 3, seed);
        for (let round = 1; round <= 3; round += 1)
          expect(new Set(showings.slice((round - 1) * choices, round * choices).map((one) => one.choice)).size).toBe(
            choices,
          );
        for (const [at, { choice, round }] of showings.entries()) {
          expect(round).toBe(Math.floor(at / choices) + 1);
          if (choice === showings[at - 1]?.choice)
            throw new Error(`seed ${String(seed)}: ${String(choice)} follows itself`);
        }
      }
  });

  it('is the same for the same seed, and mostly another for another', () => {
    const order = (seed: number) => JSON.stringify(shuffledShowings(6, 2, seed));
    expect(order(5)).toBe(order(5));
    // Of 518,400 orders, 100 drawn ones are all different in 99 of 100 cases.
    expect(new Set(Array.from({ length: 100 }, (_, seed) => order(seed))).size).toBeGreaterThan(97);
  });

  it('of one frame is that frame again and again, and of none is none', () => {
    expect(shuffledShowings(1, 2, 1)).toEqual([
      { choice: 0, round: 1 },
      { choice: 0, round: 2 },
    ]);
    expect(shuffledShowings(0, 2, 1)).toEqual([]);
  });
});
