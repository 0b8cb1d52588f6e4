import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import { toldCameraOf } from '../../core/measure/camera/told-camera.ts';
import { ASSUMED_PLACING } from '../../core/measure/uncertainty/placing.ts';
import { sameReading } from '../../core/model/reading.ts';
import type { MeasuredReading, ReadingId } from '../../core/model/reading.ts';
import type { Shape } from '../../core/model/mark.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import type { View } from '../../core/model/words.ts';
import { ON_LINE } from '../support/off-camera.ts';
import type { OffBy } from '../support/off-camera.ts';
import { ALL_MARKS, offScene } from '../support/off-scene.ts';
import type { Marking } from '../support/off-scene.ts';
import { trueReadings } from '../support/true-readings.ts';
import { within } from '../support/within.ts';

/**
 * The clubhead's arc of a body in space, exactly marked, by cameras that stand off their line and whose ground marks tell it.
 * Where the camera stands does nothing to the arc, so what is read must not move with it.
 */
const SCENARIO = demoScenario('then');

function arcReading(
  id: ReadingId,
  off: Partial<OffBy>,
  knownLengths: Marking['knownLengths'] = ['player'],
  stickNearer: Readonly<Record<View, number>> = { 'face-on': 0, 'down-the-line': 0 },
) {
  const cameras = { 'face-on': { ...ON_LINE, ...off }, 'down-the-line': ON_LINE };
  const { seen } = offScene(SCENARIO, cameras, { ...ALL_MARKS, knownLengths, stickNearer });
  const found = readSwing(seen, ASSUMED_PLACING).find((reading) => reading.id === id);
  if (found?.state !== 'measured') throw new Error(`${id} was not read`);
  return found;
}

describe('the arc, whatever way the camera face on looks', () => {
  const straight = arcReading('low-point', {});

  it.each([-6, -3, 3, 6])('low point: a camera turned by %d degrees, which its ground marks tell', (yaw) => {
    // No club swings in one plane: the places lie up to 5 cm off it, which is half a centimetre for a tenth of a radian.
    within(arcReading('low-point', { yaw }).value, straight.value, 0.16);
  });

  it('low point: a rolled camera, which its plumb tells', () => {
    within(arcReading('low-point', { roll: 2 }).value, straight.value, 0.02);
  });

  it('shift of the centre: turned by 6 degrees either way', () => {
    const [left, right] = [-6, 6].map((yaw) => arcReading('arc-centre-shift', { yaw }).value);
    within(left ?? Number.NaN, right ?? Number.NaN, 0.5);
  });
});

describe('the arc’s radius, held against the body in space', () => {
  const truth = trueReadings(SCENARIO)({ id: 'arc-radius', aspect: 'value', view: 'face-on', checkpoint: 'impact' });
  /** The scene's stick lies 10 cm before the ankles, for whose plane it stands. */
  const onPlane = { 'face-on': -0.1, 'down-the-line': 0 };

  it.each([0, 1.4])('is within 1.2 cm of it, from %d m nearer', (nearer) => {
    // No club swings in one plane, and the arc is told by one: behind the ball it lies 5 cm off it. The distance of the camera
    // counted from the middle of the mat makes it 1.7 cm too short.
    const { value, u } = arcReading('arc-radius', { nearer }, ['player'], onPlane);
    within(value, truth ?? Number.NaN, 1.2);
    expect(u).toBeGreaterThan(3 * Math.abs(value - (truth ?? Number.NaN)));
  });
});

describe('how unsure the arc is of depth', () => {
  const depthOf = ({ budget }: MeasuredReading): number => budget.find(({ source }) => source === 'depth')?.u ?? 0;
  const radius = arcReading('arc-radius', {});
  /** Of the demo's camera, metres: far from the ball, and from the ankles. */
  const [near, far] = [6.4 - 0.83, 6.4];

  /** What 15 cm of a known length nearer and farther really make of it: of each length, and of the depths that heights tell. */
  const moved = (planes: Marking['knownLengths']): number => {
    const [nearer = Number.NaN, farther = Number.NaN] = [0.15, -0.15].map(
      (by) => arcReading('arc-radius', {}, planes, { 'face-on': by, 'down-the-line': 0 }).value,
    );
    return Math.abs(nearer - farther) / 2;
  };

  it('a known length off its plane changes a radius by as much as it says, and the ball’s depth by its own u', () => {
    // 3 cm of a ball seen from the other view, whose camera is told: a stated part, by D / (D - d).
    const expected = Math.hypot(moved(['player']), (radius.value * 0.028) / near);
    within(depthOf(radius), expected, 0.1 * expected);
    // As it changes all lengths there, and no more: how large a metre is for depths, ground marks tell.
    within(moved(['player']), radius.value * (0.15 / far), 0.02 * radius.value * (0.15 / far));
  });

  it('a known length at the ball shares the ball’s depth, and may lie off it as any other', () => {
    const atBall = arcReading('arc-radius', {}, ['ball']);
    within(depthOf(atBall), moved(['ball']), 0.1 * moved(['ball']));
    expect(arcReading('clubhead-speed', {}, ['ball']).shared.map(({ name }) => name)).not.toContain(
      'depth of the ball',
    );
  });
});

describe('depths that the other view tells', () => {
  const { seen } = offScene(SCENARIO, { 'face-on': ON_LINE, 'down-the-line': ON_LINE }, ALL_MARKS);
  const byView = (view: View, swing: MarkedSwing): readonly MeasuredReading[] =>
    readSwing(swing, ASSUMED_PLACING).flatMap((each) =>
      each.state === 'measured' && each.view === view ? [each] : [],
    );
  const changed = (shapeOf: (shape: Shape) => Shape): MarkedSwing => ({
    ...seen,
    clips: seen.clips.map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks) => ({
        ...marks,
        shapes: marks.shapes.map((shape) => (clip.view === 'down-the-line' ? shapeOf(shape) : shape)),
      })),
    })),
  });
  const before = byView('face-on', seen);

  it('are wrong together where that view’s mat is said to be too large, which moves a reading by as much as it says', () => {
    const LARGER = 0.03;
    const larger = changed((shape) =>
      shape.kind === 'ground'
        ? {
            ...shape,
            places: shape.places.map((place) => ({
              ...{ ...place, target: (1 + LARGER) * place.target, ball: (1 + LARGER) * place.ball },
            })),
          }
        : shape,
    );
    const other = seen.clips.find(({ view }) => view === 'down-the-line');
    const perMetre = other === undefined ? null : toldCameraOf(other, 1, 3)?.perMetre;
    const scaleU = (perMetre?.u ?? Number.NaN) / (perMetre?.value ?? Number.NaN);
    const after = byView('face-on', larger);
    const told = before.flatMap((reading) => {
      const scale = reading.shared.find(({ name }) => name.startsWith('scale of depths'));
      const same = after.find((each) => sameReading(each, reading));
      if (scale === undefined || same?.state !== 'measured') return [];
      return [{ reading, moved: same.value - reading.value, said: (scale.part * LARGER) / scaleU }];
    });
    expect(told.length).toBeGreaterThan(30);
    // First order against 3 %: a tenth, or what is nothing beside the reading's own u.
    for (const { reading, moved, said } of told)
      within(moved, said, Math.max(0.1 * Math.abs(said), 0.02 * reading.u), `${reading.id} at ${reading.checkpoint}`);
  });

  it('are none of a stick’s: ground marks tell how large a metre is', () => {
    const longer = changed((shape) =>
      shape.kind === 'line' && shape.lengthMm !== null ? { ...shape, lengthMm: 1.03 * shape.lengthMm } : shape,
    );
    expect(byView('face-on', longer).map(({ value }) => value)).toEqual(before.map(({ value }) => value));
  });

  it('and hardly touch a ratio to address: the club comes back to where it was', () => {
    const radius = before.find(({ id }) => id === 'club-radius');
    expect(radius?.budget.find(({ source }) => source === 'depth')?.u ?? 1).toBeLessThan(0.6 * 0.0143);
  });
});
