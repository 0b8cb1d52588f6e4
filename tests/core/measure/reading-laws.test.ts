import { describe, expect, it } from 'vitest';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import type { Reading } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { CHECKPOINTS, VIEWS } from '../../../core/model/words.ts';
import { within } from '../../support/within.ts';
import { ALL_SHAPES, HEIGHT, WIDTH, inventedSwing, movedSwing } from './invented-swing.ts';
import { STEADY } from '../../support/steady.ts';
import { lasting, sized } from '../../support/sized.ts';

const SEED = 271828;
const numbers = seeded(SEED);

/** A swing whose points lie anywhere, so that no sign is favoured; shapes stay those of the invented one. */
function scattered(): MarkedSwing {
  const swing = inventedSwing(ALL_SHAPES);
  const place = () => ({ x: WIDTH * numbers.uniform(), y: HEIGHT * numbers.uniform(), hidden: false });
  const clips = swing.clips.map((clip) => ({
    ...clip,
    marks: clip.marks.map((marks) => ({
      ...marks,
      points: Object.fromEntries(BODY_POINTS.map((point) => [point, place()])),
    })),
  }));
  return { ...swing, clips };
}

/** Equal in every word; in numbers within a billionth of the picture. Monte Carlo draws other numbers: within 20 % of u. */
function expectAlike(a: readonly Reading[], b: readonly Reading[], factor = () => 1): void {
  expect(b.map(({ id, aspect, view, checkpoint, state }) => [id, aspect, view, checkpoint, state])).toEqual(
    a.map(({ id, aspect, view, checkpoint, state }) => [id, aspect, view, checkpoint, state]),
  );
  for (const [index, first] of a.entries()) {
    const second = b[index];
    if (first.state !== 'measured' || second?.state !== 'measured') continue;
    const what = `${first.id} ${first.aspect} ${first.view} ${first.checkpoint}`;
    within(second.value, factor() * first.value, 1e-6, what);
    within(second.u, factor() * first.u, first.method === 'monte-carlo' ? 0.2 * first.u + 1e-9 : 1e-5, `u of ${what}`);
    expect([second.unit, second.notes]).toEqual([first.unit, first.notes]);
  }
}

describe(`readings of any placement (seed ${SEED})`, () => {
  it(
    'have the same sign and value for the mirrored left-hander',
    () => {
      const mirror = ({ x, y }: PicturePoint) => ({ x: WIDTH - x, y });
      for (let trial = 0; trial < sized(4, 10); trial += 1) {
        const right = scattered();
        const left: MarkedSwing = { ...movedSwing(right, mirror), handedness: 'left' };
        expectAlike(readSwing(right, STEADY), readSwing(left, STEADY));
        expectAlike(readSwing(right), readSwing(left));
      }
    },
    lasting(60_000),
  );

  it('do not change when the whole picture is moved', () => {
    const move = ({ x, y }: PicturePoint) => ({ x: x + 137.25, y: y - 61.5 });
    for (let trial = 0; trial < 3; trial += 1) {
      const swing = scattered();
      expectAlike(readSwing(swing, STEADY), readSwing(movedSwing(swing, move), STEADY));
    }
  });

  it('do not change when the picture is made twice as large, placing error with it', () => {
    const swing = scattered();
    const twice = movedSwing(swing, ({ x, y }) => ({ x: 2 * x, y: 2 * y }));
    const clips = twice.clips.map((clip) => ({ ...clip, width: 2 * WIDTH, height: 2 * HEIGHT }));
    expectAlike(readSwing(swing, STEADY), readSwing({ ...twice, clips }, STEADY));
  });

  it('do not change, but for the head box, when the camera rolls and a plumb shows it', () => {
    const swing = scattered();
    const [cos, sin] = [Math.cos(0.05), Math.sin(0.05)];
    const rolled = movedSwing(swing, ({ x, y }) => ({ x: cos * x - sin * y, y: sin * x + cos * y }));
    const known = (readings: readonly Reading[]) =>
      readings.filter(({ id }) => id !== 'head-box' && id !== 'head-centre-box');
    expectAlike(known(readSwing(swing, STEADY)), known(readSwing(rolled, STEADY)));
  });

  it('change in step with the known length', () => {
    const swing = scattered();
    const clips = swing.clips.map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks) => ({
        ...marks,
        shapes: marks.shapes.map((shape) =>
          shape.kind === 'line' && shape.lengthMm !== null ? { ...shape, lengthMm: 2 * shape.lengthMm } : shape,
        ),
      })),
    }));
    const lengths = (of: MarkedSwing) =>
      readSwing(of, STEADY).filter((reading) => reading.state === 'measured' && reading.unit === 'cm');
    expect(lengths(swing).length).toBeGreaterThan(20);
    expectAlike(lengths(swing), lengths({ ...swing, clips }), () => 2);
  });

  it(
    'are numbers or have a reason, also when all points are on one line, on one place, or far outside the picture',
    () => {
      const places: readonly ((index: number) => PicturePoint)[] = [
        (index) => ({ x: 100 + 10 * index, y: 100 + 10 * index }),
        (index) => ({ x: 500, y: 10 * index }),
        (index) => ({ x: 10 * index, y: 500 }),
        (index) => ({ x: 1 + 0.1 * index, y: 2 + 0.3 * index }),
        () => ({ x: 0, y: 0 }),
        () => ({ x: 640.5, y: 333.25 }),
        (index) => ({ x: -1e6 * index, y: 1e6 * (index % 3) }),
      ];
      for (const shapes of [ALL_SHAPES, { plumb: false, knownLength: false, headBox: false }])
        for (const place of places) {
          const swing = inventedSwing(shapes);
          const clips = swing.clips.map((clip) => ({
            ...clip,
            marks: clip.marks.map((marks) => ({
              ...marks,
              points: Object.fromEntries(BODY_POINTS.map((point, k) => [point, { ...place(k), hidden: false }])),
            })),
          }));
          for (const reading of readSwing({ ...swing, clips })) {
            if (reading.state === 'missing') continue;
            const { value, u, interval } = reading;
            expect([value, u, ...interval].every(Number.isFinite)).toBe(true);
            expect(u).toBeGreaterThanOrEqual(0);
          }
        }
    },
    lasting(60_000),
  );

  it('are the same when read twice', () => {
    const swing = scattered();
    expect(readSwing(swing, STEADY)).toEqual(readSwing(swing, STEADY));
  });

  it('are none for an empty swing, and for named frames without marks each has a reason', () => {
    const swing = inventedSwing();
    expect(readSwing({ ...swing, clips: [] })).toEqual([]);
    const bare = swing.clips.map((clip) => ({ ...clip, marks: [] }));
    const readings = readSwing({ ...swing, clips: bare });
    expect(readings.map(({ view }) => view)).toEqual(expect.arrayContaining([...VIEWS]));
    for (const reading of readings)
      if (reading.state === 'missing') {
        const { points, headBox, ground, path } = reading.needs;
        expect(points.length > 0 || headBox || ground === true || path !== undefined, reading.id).toBe(true);
        expect(CHECKPOINTS).toContain(reading.checkpoint);
      } else expect(['backswing', 'downswing', 'tempo']).toContain(reading.id);
  });
});
